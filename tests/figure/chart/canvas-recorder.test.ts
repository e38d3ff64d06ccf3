import { expect, test } from 'vitest';
import { CanvasRecorder } from '../../../src/figure/chart/canvas-recorder.js';
import { strictCanvas } from '../../../src/figure/chart/draw-chart.js';
import { readSvg, all } from '../read-svg.js';

/** The calls a test makes, checked by no type: what is refused is part of what is tested. */
type Loose = Record<string, unknown> & Record<'fill' | 'stroke' | 'save', (...given: unknown[]) => unknown>;

function canvas(place: { left?: number; top?: number } = {}) {
  const recorder = new CanvasRecorder('f-1', { width: 200, height: 100, ...place });
  const context = strictCanvas(recorder, 200, 100).getContext('2d');
  return { recorder, context: context as CanvasRecorder & CanvasRecorder['state'], loose: context as Loose };
}

const marksOf = ({ recorder }: { recorder: CanvasRecorder }) =>
  readSvg(`<svg>${recorder.defs}${recorder.body}</svg>`).children;
const shapesOf = (of: { recorder: CanvasRecorder }) =>
  marksOf(of).map(({ attributes }) => attributes.get('d'));

test('a path lies where the transforms of its moment put it', () => {
  const drawn = canvas({ left: 100 });
  const { context } = drawn;
  context.fillStyle = 'solid';
  context.save();
  context.translate(10, 20);
  context.rotate(Math.PI / 2);
  context.scale(2, 2);
  context.beginPath();
  context.moveTo(0, 0);
  context.lineTo(5, 0);
  context.restore();
  context.lineTo(1, 1);
  context.closePath();
  context.fill();
  // (5, 0) scaled is (10, 0), turned a quarter is (0, 10), moved is (10, 30), and the chart begins at 100.
  expect(shapesOf(drawn)).toEqual(['M110 20L110 30L101 1z']);
});

test('an arc ends where it should, a whole turn too, and goes the way it is told', () => {
  const drawn = canvas();
  const { context } = drawn;
  context.fillStyle = 'solid';
  for (const [from, to, back] of [
    [0, 2 * Math.PI, false],
    [0, Math.PI, false],
    [0, Math.PI / 2, true],
  ] as const) {
    context.beginPath();
    context.arc(50, 50, 10, from, to, back);
    context.fill();
  }
  expect(shapesOf(drawn)).toEqual([
    'M60 50A10 10 0 0 1 40 50A10 10 0 0 1 60 50',
    'M60 50A10 10 0 0 1 50 60A10 10 0 0 1 40 50',
    // Three quarters of a turn backwards; half of it ends up left above.
    'M60 50A10 10 0 0 0 42.9 42.9A10 10 0 0 0 50 60',
  ]);
});

test('what was set comes back with restore, and saves without an end do no harm', () => {
  const { context } = canvas();
  context.fillStyle = 'solid';
  context.setLineDash([4, 3]);
  context.save();
  context.fillStyle = 'vet';
  context.globalAlpha = 0.5;
  context.setLineDash([]);
  context.restore();
  context.restore();
  expect([context.fillStyle, context.globalAlpha, context.getLineDash()]).toEqual(['solid', 1, [4, 3]]);
});

test('a clip inside a clip keeps to both, each named after the drawing and once', () => {
  const drawn = canvas();
  const { context } = drawn;
  context.fillStyle = 'solid';
  for (let time = 0; time < 2; time++) {
    context.save();
    for (const size of [50, 20]) {
      context.beginPath();
      context.rect(0, 0, size, size);
      context.clip();
    }
    context.fillRect(0, 0, 99, 99);
    context.restore();
  }
  const elements = all(readSvg(`<svg>${drawn.recorder.defs}${drawn.recorder.body}</svg>`));
  const clips = elements.filter(({ name }) => name === 'clipPath');
  expect(clips.map(({ attributes }) => [attributes.get('id'), attributes.get('clip-path')])).toEqual([
    ['f-1-clip1', undefined],
    ['f-1-clip2', 'url(#f-1-clip1)'],
  ]);
  const filled = elements.filter(({ attributes }) => attributes.get('class') === 'solid');
  expect(filled.map(({ attributes }) => attributes.get('clip-path'))).toEqual([
    'url(#f-1-clip2)',
    'url(#f-1-clip2)',
  ]);
});

test('alpha and dashes the palette leaves open are written; lines of one look become one', () => {
  const drawn = canvas();
  const { context } = drawn;
  context.strokeStyle = 'outline';
  context.setLineDash([5, 1]);
  context.strokeRect(0, 0, 9, 9);
  context.strokeRect(20, 0, 9, 9);
  context.globalAlpha = 0.25;
  context.strokeRect(40, 0, 9, 9);
  const marks = marksOf(drawn);
  expect(
    marks.map(({ attributes }) => [attributes.get('stroke-dasharray'), attributes.get('opacity')]),
  ).toEqual([
    ['5 1', undefined],
    ['5 1', '0.25'],
  ]);
  expect(marks[0]!.attributes.get('d')!.match(/M/g)).toHaveLength(2);
});

test('text is text, on its baseline, escaped, and measured by the width table', () => {
  const drawn = canvas();
  const { context } = drawn;
  context.fillStyle = 's';
  context.font = 'normal 11px Growdown Sans';
  context.textAlign = 'right';
  context.textBaseline = 'middle';
  context.fillText('a < b', 50, 40);
  const [mark] = marksOf(drawn);
  expect([mark!.text, mark!.attributes.get('class'), mark!.attributes.get('x')]).toEqual([
    'a < b',
    's end',
    '50',
  ]);
  expect(Number(mark!.attributes.get('y'))).toBeCloseTo(40 + 0.35 * 11, 1);
  expect(context.measureText('000').width).toBeCloseTo((3 * 497 * 11) / 1000, 9);
});

test.each([
  ['a call nobody recorded', ({ loose }) => loose['drawImage']],
  ['a setting nobody recorded', ({ loose }) => (loose['shadowBlur'] = 3)],
  [
    'a colour that is no mark',
    ({ context }) => ((context.fillStyle = '#ff0000'), context.fillRect(0, 0, 1, 1)),
  ],
  ['a gradient', ({ loose }) => (loose['fillStyle'] = {})],
  [
    'a pattern of another drawing',
    ({ context }) => ((context.fillStyle = 'url(#f-2-o)'), context.fillRect(0, 0, 1, 1)),
  ],
  ['the other rule of filling', ({ context }) => context.fill('evenodd')],
  ['a place that is no number', ({ context }) => context.moveTo(Number.NaN, 0)],
  ['a radius below nothing', ({ context }) => context.arc(0, 0, -1, 0, 1)],
  ['a skewed circle', ({ context }) => (context.scale(2, 1), context.arc(0, 0, 1, 0, 1))],
  [
    'a line of another width than its mark',
    ({ context }) => ((context.strokeStyle = 'top'), context.strokeRect(0, 0, 1, 1)),
  ],
  [
    'a line in a mark that fills',
    ({ context }) => ((context.strokeStyle = 'wall'), context.strokeRect(0, 0, 1, 1)),
  ],
  [
    'type of another size than its mark',
    ({ context }) => ((context.fillStyle = 'n'), context.fillText('1', 0, 0)),
  ],
  ['a font it cannot read', ({ context }) => ((context.font = 'caption'), context.measureText('1'))],
  [
    'text wider than its room',
    ({ context }) => ((context.fillStyle = 's'), context.fillText('wide', 0, 0, 3)),
  ],
  [
    'a ready-made path',
    ({ context, loose }) => ((context.strokeStyle = 'top'), (context.lineWidth = 3), loose.stroke({})),
  ],
  ['clearing a part', ({ context }) => context.clearRect(0, 0, 10, 10)],
  [
    'a canvas in depth',
    () => strictCanvas(new CanvasRecorder('f', { width: 1, height: 1 }), 1, 1).getContext('webgl'),
  ],
] satisfies [string, (of: ReturnType<typeof canvas>) => unknown][])('%s is refused', (_, draw) => {
  expect(() => draw(canvas())).toThrow(/./);
});

test('the refusals are not for everything: the same calls as they should be go through', () => {
  const drawn = canvas();
  const { context } = drawn;
  context.fillStyle = 'url(#f-1-o)';
  context.fillRect(0, 0, 1, 1);
  context.strokeStyle = 'top';
  context.lineWidth = 3;
  context.strokeRect(0, 0, 1, 1);
  context.fillStyle = 's';
  context.fillText('wide', 0, 0, 300);
  expect(marksOf(drawn)).toHaveLength(3);
  context.clearRect(0, 0, 200, 100);
  expect(marksOf(drawn)).toEqual([]);
});
