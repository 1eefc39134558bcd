// The configurations of the units at the lock gates. One that is in use is never edited: a change gets a name of its
// own.
const hot = { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65, deadband: 3, priority: 'high' };
const dirty = { id: 'dirty', type: 'high', figure: { code: 'iso4406' }, setpoint: '18/16/13', deadband: 1 };
const wet = { id: 'wet', type: 'high', figure: { quantity: 'waterSaturation' }, setpoint: 0.8, deadband: 0.1 };

const spring = { codes: [{ table: 'iso4406', target: '18/16/13' }], alarms: [hot, dirty] };

export const configurations = {
  spring,
  summer: { ...spring, alarms: [{ ...hot, setpoint: 70 }, dirty, wet] },
};
