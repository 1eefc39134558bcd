// Once, on a host: what 0.1.0 left on a gateway becomes the text that the gateway restores. The events come on stderr.
// node convert.mjs motescale.global.js gateway.js < left.json > saved.txt
import { readFileSync } from 'node:fs';
import { crc32 } from 'node:zlib';

// the whole library reads what the unit script does not; gateway.js has the configuration
const [library, code] = process.argv.slice(2).map((file) => readFileSync(file, 'utf8'));
const gateway = new Function(`${library}\n${code}\nreturn gateway;`)();
const left = readFileSync(0, 'utf8').trim();
const checksum = crc32(Buffer.from(left, 'utf16le')).toString(16).padStart(8, '0');
console.error(gateway.restore(checksum + left));
process.stdout.write(gateway.save());
