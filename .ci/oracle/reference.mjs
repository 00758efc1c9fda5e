// Prints what two other libraries make of a thousand pairs of colours, as CSV:
// two sRGB colours, the CIELAB (D65) of both by culori, and their CIEDE2000 by
// culori and by color-diff. The colours come from a fixed rule, so that every
// run prints the same pairs.
//
// Mind what is asked of whom. culori's lab is for D50; its lab65 is ours, and
// its differenceCiede2000 works on lab65. color-diff gets its Lab from culori:
// its own conversion has rounded matrices.
import { createRequire } from 'node:module';
import { converter, differenceCiede2000 } from 'culori';

const { diff } = createRequire(import.meta.url)('color-diff');
const lab65 = converter('lab65');
const ciede2000 = differenceCiede2000();
const forDiff = (c) => ({ L: c.l, a: c.a, b: c.b });

// Knuth's MMIX generator (The Art of Computer Programming 2, 3.3.4), its top
// byte taken.
let state = 20n;
function byte() {
  state = (state * 6364136223846793005n + 1442695040888963407n) & 0xffffffffffffffffn;
  return Number(state >> 56n);
}

// Every fourth pair is two near neighbours, where a difference matters most;
// every tenth colour is a grey.
function colour(i) {
  const first = byte(), rgb = [first, byte(), byte()];
  return i % 10 === 0 ? [first, first, first] : rgb;
}
const nudge = (v) => Math.min(255, Math.max(0, v + (byte() % 17) - 8));
const hex = (rgb) => '#' + rgb.map((v) => v.toString(16).padStart(2, '0')).join('');
const srgb = ([r, g, b]) => ({ mode: 'rgb', r: r / 255, g: g / 255, b: b / 255 });

console.log('hex1,hex2,L1,a1,b1,L2,a2,b2,culori,color_diff');
for (let i = 0; i < 1000; i++) {
  const one = colour(i), two = i % 4 === 0 ? one.map(nudge) : colour(i + 5);
  const p = lab65(srgb(one)), q = lab65(srgb(two));
  console.log([hex(one), hex(two), p.l, p.a, p.b, q.l, q.a, q.b, ciede2000(p, q), diff(forDiff(p), forDiff(q))].join(','));
}
