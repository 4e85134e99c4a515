/** Loaded before the program under test: writes down every attempt at a network, a process or a thread. */
import childProcess from 'node:child_process';
import dgram from 'node:dgram';
import dns from 'node:dns';
import { appendFileSync } from 'node:fs';
import http from 'node:http';
import http2 from 'node:http2';
import https from 'node:https';
import { syncBuiltinESMExports } from 'node:module';
import net from 'node:net';
import tls from 'node:tls';
import workerThreads from 'node:worker_threads';

const log = process.env.STOVEHAND_WATCH_LOG ?? '';
const write = (what, values) => appendFileSync(log, `${JSON.stringify({ what, values })}\n`);
const plain = value => (typeof value === 'function' || typeof value === 'symbol' ? undefined : value);

function watch(holder, prefix, names) {
  for (const name of names) {
    const work = holder[name];
    if (typeof work !== 'function') continue;
    holder[name] = function watched(...values) {
      write(`${prefix}${name}`, values.slice(0, 3).map(plain));
      return new.target ? Reflect.construct(work, values, new.target) : Reflect.apply(work, this, values);
    };
  }
}

watch(childProcess, 'process ', ['spawn', 'spawnSync', 'exec', 'execSync', 'execFile', 'execFileSync', 'fork']);
watch(net, 'network ', ['connect', 'createConnection', 'createServer']);
watch(net.Socket.prototype, 'network socket ', ['connect']);
watch(tls, 'network ', ['connect']);
watch(dgram, 'network ', ['createSocket']);
watch(http, 'network ', ['request', 'get', 'createServer']);
watch(https, 'network ', ['request', 'get']);
watch(http2, 'network ', ['connect', 'createServer']);
watch(dns, 'network ', ['lookup', 'resolve', 'resolve4', 'resolve6', 'reverse']);
watch(dns.promises, 'network ', ['lookup', 'resolve', 'resolve4', 'resolve6']);
watch(workerThreads, 'thread ', ['Worker']);
watch(globalThis, 'network ', ['fetch', 'WebSocket', 'EventSource']);
syncBuiltinESMExports();
write('watching', []);
