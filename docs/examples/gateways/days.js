// Days of an invented sensor at a lock gate, a reading every ten minutes: after gateway.js. In whole numbers, so that
// they are the same on every engine. The oil gets dirtier until the filter is changed, each sixtieth day. Afternoons are
// warm, and on each seventh day the sensor fails for a while. Once a day the state goes out as text and comes back.
function runDays(from, to) {
  var told = [];
  for (var day = from; day < to; day += 1) {
    for (var i = 0; i < 144; i += 1) {
      var events = JSON.parse(gateway.take((day * 144 + i) * 600000, registersOf(day, i)));
      for (var k = 0; k < events.length; k += 1) told.push(events[k]);
    }
    gateway.restore(gateway.save());
  }
  return told;
}

function registersOf(day, i) {
  var noise = (((day * 144 + i) % 7919) * 7919 + 12345) % 1009;
  var worn = day % 60;
  var four = 9000 + worn * 600 + (worn > 15 ? 12000 : 0) + 8 * noise;
  var six = 2600 + worn * 150 + (worn > 15 ? 9000 : 0) + noise;
  var fourteen = 150 + worn * 8 + Math.floor(noise / 16);
  var celsius = 380 + (i > 72 ? 3 * (144 - i) : 3 * i) + (day % 5 === 3 ? 40 : 0);
  var down = day % 7 === 6 && i > 60 && i < 66;
  var counted = [Math.floor(four / 65536), four % 65536, 0, six, 0, fourteen];
  var words = counted.concat([100, celsius, 60, 450, noise % 97 === 0 ? 1 : 0]);
  return JSON.stringify(down ? [0, 0, 0, 65535, 0, 0, 0, 0, 0, 0, 0] : words);
}
