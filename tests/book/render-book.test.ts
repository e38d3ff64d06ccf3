import { expect, test, vi } from 'vitest';
import { composeBook } from '../../src/book/compose-book.js';
import { renderBook } from '../../src/book/render-book.js';
import { marksShown } from '../../src/book/layout-css.js';
import { told } from '../../src/reference/words.js';
import { caseOf, farmWith, fullFarm, fullPractice } from './full-practice.js';

const today = '2026-03-10';

test('what users write prints as text, template marks and tags included', async () => {
  const hostile = '{{ 7919 * 7907 }} {% include "x" %} {# gone? #} <script>alert(1)</script> </style> "\'&';
  const farm = farmWith([
    caseOf(
      'hostile',
      {
        casefile: 1,
        animal: hostile,
        tag: hostile,
        breed: hostile,
        handling: hostile,
        lesions: { a: { code: 'WL', foot: 'LH', claw: 'outer', line: 'heel' } },
        visits: [
          {
            date: '2026-01-05',
            by: hostile,
            kind: 'first',
            note: hostile,
            found: { a: { state: 'open', note: hostile } },
          },
        ],
      },
      `${hostile}\n\n<img src="https://elsewhere.example/x.png" onerror="x()">\n\n[in](https://elsewhere.example/) ![pic](https://elsewhere.example/p.png) <b>bold</b>\n`,
    ),
  ]);
  const html = await renderBook(
    composeBook(fullPractice, { ...farm, farm: { ...farm.farm, farm: hostile }, narrative: hostile }, today),
  );
  expect(html).toContain('{{ 7919 * 7907 }} {% include');
  expect(html).toContain('{# gone? #}');
  expect(html).not.toContain('62615533');
  expect(html).not.toMatch(/<(script|img|iframe|object|link|base|form)\b/i);
  expect(html).not.toContain('<b>bold');
  expect(html).not.toMatch(/<[^>]* on[a-z]+=/i);
  expect(html.match(/<\/style>/g)).toHaveLength(1);
  expect(html).toContain('pic');
});

test('the same record gives the same bytes, alone or beside others drawn at the same time', async () => {
  const page = composeBook(fullPractice, fullFarm, today);
  const alone = await renderBook(page);
  const [first, , last] = await Promise.all([page, { ...page, title: 'Another' }, page].map(renderBook));
  expect(first).toBe(alone);
  expect(last).toBe(alone);
});

test('a book asks nothing of the outside: every address in it is a place in it', async () => {
  const html = await renderBook(composeBook(fullPractice, fullFarm, today));
  const addresses = [...html.matchAll(/(?:href|src|srcset|action|poster|data)="([^"]*)"/g)].map(
    (match) => match[1]!,
  );
  expect(addresses.length).toBeGreaterThan(5);
  const ids = new Set([...html.matchAll(/\sid="([^"]*)"/g)].map((match) => `#${match[1]}`));
  expect(addresses.filter((address) => !ids.has(address))).toEqual([]);
  expect(html).not.toMatch(/@import|url\((?!#|data:font\/woff2;base64,)/);
});

test('the process stays in its folder all the time, even where that folder is gone', async () => {
  const page = composeBook(fullPractice, farmWith([]), today);
  const here = await renderBook(page);
  const moved = vi.spyOn(process, 'chdir');
  const stands = vi.spyOn(process, 'cwd').mockReturnValue('/gone');
  try {
    expect(await renderBook(page)).toBe(here);
    expect(moved).not.toHaveBeenCalled();
  } finally {
    moved.mockRestore();
    stands.mockRestore();
  }
});

test('a marked text is in an element of its own, and without its mark where none may stand', () => {
  const mark = told('ab');
  const bare = (html: string) => html.replaceAll('@', 'ab');
  expect(marksShown(`<p title="${mark}">by ${mark}; ${told('&lt;')}</p>`)).toBe(
    '<p title="ab">by <bdi>ab</bdi>; <bdi>&lt;</bdi></p>',
  );
  for (const html of [
    '<title>@ x</title>',
    '<style>a{content:"@"}</style>',
    '<script>"@"</script>',
    '<svg><text>@</text></svg>',
    '<textarea>@</textarea>',
    '<option value="@">@</option>',
    '<!-- @ -->',
  ])
    expect(marksShown(html.replaceAll('@', mark))).toBe(bare(html));
  expect(marksShown('a\u2068b<i>c\u2069d')).toBe('ab<i>cd');
});
