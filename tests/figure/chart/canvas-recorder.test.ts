import { expect, test } from 'vitest';
import { recordedCanvas } from '../../../src/figure/chart/canvas-recorder.js';
import { readSvg, all } from '../read-svg.js';

/** The calls and settings of a test, checked by no type: what is refused is part of what is tested. */
type Context = Record<string, unknown> &
  Record<
    | 'save'
    | 'restore'
    | 'translate'
    | 'rotate'
    | 'beginPath'
    | 'moveTo'
    | 'lineTo'
    | 'closePath'
    | 'rect'
    | 'arc'
    | 'clip'
    | 'fill'
    | 'stroke'
    | 'fillText'
    | 'clearRect'
    | 'setLineDash',
    (...given: unknown[]) => unknown
  > & { measureText: (text: string) => { width: number } };

function canvas(place: { left?: number; top?: number } = {}) {
  const recorder = recordedCanvas({ id: 'f-1', left: 0, top: 0, width: 200, height: 100, ...place });
  const context = recorder.canvas.getContext('2d') as Context;
  const box = (x: number, y: number, width: number, height: number, draw: 'fill' | 'stroke' = 'fill') => {
    context.beginPath();
    context.rect(x, y, width, height);
    context[draw]();
  };
  return { recorder, context, box };
}

const marksOf = ({ recorder }: { recorder: ReturnType<typeof recordedCanvas> }) =>
  readSvg(`<svg>${recorder.defs()}${recorder.body()}</svg>`).children;
const shapesOf = (of: Parameters<typeof marksOf>[0]) =>
  marksOf(of).map(({ attributes }) => attributes.get('d'));

test('a path lies where the shifts of its moment put it', () => {
  const drawn = canvas({ left: 100 });
  const { context } = drawn;
  context['fillStyle'] = 'solid';
  context.save();
  context.translate(10, 20);
  context.rotate(0);
  context.beginPath();
  context.moveTo(0, 0);
  context.lineTo(5, 10);
  context.restore();
  context.lineTo(1, 1);
  context.closePath();
  context.fill();
  // (5, 10) moved is (15, 30), and the chart begins at 100.
  expect(shapesOf(drawn)).toEqual(['M110 20L115 30L101 1z']);
});

test('a circle ends where it began', () => {
  const drawn = canvas();
  const { context } = drawn;
  context['fillStyle'] = 'solid';
  context.beginPath();
  context.arc(50, 50, 10, 0, 2 * Math.PI);
  context.fill();
  expect(shapesOf(drawn)).toEqual(['M60 50A10 10 0 0 1 40 50A10 10 0 0 1 60 50']);
});

test('what was set comes back with restore, and saves without an end do no harm', () => {
  const { context } = canvas();
  context['fillStyle'] = 'solid';
  context['lineWidth'] = 3;
  context.save();
  context['fillStyle'] = 'vet';
  context['lineWidth'] = 1;
  context.restore();
  context.restore();
  expect([context['fillStyle'], context['lineWidth']]).toEqual(['solid', 3]);
});

test('a clip inside a clip keeps to both, each named after the drawing and once', () => {
  const drawn = canvas();
  const { context, box } = drawn;
  context['fillStyle'] = 'solid';
  for (let time = 0; time < 2; time++) {
    context.save();
    for (const size of [50, 20]) {
      context.beginPath();
      context.rect(0, 0, size, size);
      context.clip();
    }
    box(0, 0, 99, 99);
    context.restore();
  }
  const elements = all(readSvg(`<svg>${drawn.recorder.defs()}${drawn.recorder.body()}</svg>`));
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

test('lines of one look become one', () => {
  const drawn = canvas();
  const { context, box } = drawn;
  context['strokeStyle'] = 'outline';
  box(0, 0, 9, 9, 'stroke');
  box(20, 0, 9, 9, 'stroke');
  context['strokeStyle'] = 'top';
  context['lineWidth'] = 3;
  box(40, 0, 9, 9, 'stroke');
  const marks = marksOf(drawn);
  expect(marks.map(({ attributes }) => attributes.get('class'))).toEqual(['outline', 'top']);
  expect(marks[0]!.attributes.get('d')!.match(/M/g)).toHaveLength(2);
});

test('text is text, on its baseline, escaped, and measured by the width table', () => {
  const drawn = canvas();
  const { context } = drawn;
  context['fillStyle'] = 's';
  context['font'] = 'normal 11px Growdown Sans';
  context['textAlign'] = 'right';
  context['textBaseline'] = 'middle';
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
  ['a call nobody recorded', ({ context }) => context['drawImage']],
  ['a setting nobody recorded', ({ context }) => (context['shadowBlur'] = 3)],
  ['a colour that is no mark', ({ context, box }) => ((context['fillStyle'] = '#ff0000'), box(0, 0, 1, 1))],
  ['a gradient', ({ context }) => (context['fillStyle'] = {})],
  [
    'a pattern of another drawing',
    ({ context, box }) => ((context['fillStyle'] = 'url(#f-2-o)'), box(0, 0, 1, 1)),
  ],
  ['the other rule of filling', ({ context }) => context.fill('evenodd')],
  ['a place that is no number', ({ context }) => context.moveTo(Number.NaN, 0)],
  ['a radius below nothing', ({ context }) => context.arc(0, 0, -1, 0, 2 * Math.PI)],
  ['half a circle', ({ context }) => context.arc(0, 0, 1, 0, Math.PI)],
  ['a turn', ({ context }) => context.rotate(1)],
  ['a line of dashes', ({ context }) => context.setLineDash([4, 3])],
  [
    'a line of another width than its mark',
    ({ context, box }) => ((context['strokeStyle'] = 'top'), box(0, 0, 1, 1, 'stroke')),
  ],
  [
    'a line in a mark with dashes',
    ({ context, box }) => ((context['strokeStyle'] = 'dotted'), box(0, 0, 1, 1, 'stroke')),
  ],
  [
    'a line in a mark that fills',
    ({ context, box }) => ((context['strokeStyle'] = 'wall'), box(0, 0, 1, 1, 'stroke')),
  ],
  [
    'type of another size than its mark',
    ({ context }) => ((context['fillStyle'] = 'n'), context.fillText('1', 0, 0)),
  ],
  ['a font it cannot read', ({ context }) => ((context['font'] = 'caption'), context.measureText('1'))],
  [
    'text wider than its room',
    ({ context }) => ((context['fillStyle'] = 's'), context.fillText('wide', 0, 0, 3)),
  ],
  [
    'a ready-made path',
    ({ context }) => ((context['strokeStyle'] = 'top'), (context['lineWidth'] = 3), context.stroke({})),
  ],
  ['clearing a part', ({ context }) => context.clearRect(0, 0, 10, 10)],
  ['a canvas in depth', ({ recorder }) => recorder.canvas.getContext('webgl')],
] satisfies [string, (of: ReturnType<typeof canvas>) => unknown][])('%s is refused', (_, draw) => {
  expect(() => draw(canvas())).toThrow(/./);
});

test('the refusals are not for everything: the same calls as they should be go through', () => {
  const drawn = canvas();
  const { context, box } = drawn;
  context['fillStyle'] = 'url(#f-1-o)';
  box(0, 0, 1, 1);
  context['strokeStyle'] = 'top';
  context['lineWidth'] = 3;
  box(0, 0, 1, 1, 'stroke');
  context['fillStyle'] = 's';
  context['textBaseline'] = 'middle';
  context['textAlign'] = 'left';
  context.fillText('wide', 0, 0, 300);
  expect(marksOf(drawn)).toHaveLength(3);
  context.clearRect(0, 0, 200, 100);
  expect(marksOf(drawn)).toEqual([]);
});
