import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';

/** A PDF as an independent reader finds it. */
export interface PdfRead {
  readonly sheets: readonly SheetRead[];
  readonly isMarked: boolean;
  /** Titles of the outline, in order, with how deep they are. */
  readonly outline: readonly { readonly title: string; readonly depth: number }[];
}

export interface SheetRead {
  /** Width and height, points. */
  readonly size: readonly [number, number];
  /** Text in the order of the tags: what is read aloud. */
  readonly tagged: string;
  /** Text that no tag holds: the margins, and heads of tables repeated. */
  readonly untagged: string;
  readonly figures: number;
}

interface Node {
  readonly role?: string;
  readonly type?: string;
  readonly id?: string;
  readonly children?: readonly Node[];
}

export async function readPdf(pdf: Uint8Array): Promise<PdfRead> {
  const loading = getDocument({ data: new Uint8Array(pdf), verbosity: 0 });
  const document = await loading.promise;
  const sheets: SheetRead[] = [];
  for (let number = 1; number <= document.numPages; number++) {
    const page = await document.getPage(number);
    const [content, tree] = await Promise.all([
      page.getTextContent({ includeMarkedContent: true }),
      page.getStructTree() as Promise<Node | null>,
    ]);
    const byTag = new Map<string, string>();
    const open: (string | undefined)[] = [];
    let untagged = '';
    for (const item of content.items) {
      if ('str' in item) {
        const tag = open.findLast((id) => id !== undefined);
        if (tag === undefined) untagged += item.str;
        else byTag.set(tag, (byTag.get(tag) ?? '') + item.str);
      } else if (item.type === 'endMarkedContent') open.pop();
      else open.push(item.id ?? undefined);
    }
    const order = tree ? nodesOf(tree) : [];
    const [, , width = 0, height = 0] = page.view;
    sheets.push({
      size: [width, height],
      tagged: order.map(({ type, id }) => (type === 'content' && id ? (byTag.get(id) ?? '') : '')).join(''),
      untagged,
      figures: order.filter(({ role }) => role === 'Figure').length,
    });
    page.cleanup();
  }
  const marks = await document.getMarkInfo();
  const outline = titlesOf(await document.getOutline(), 0);
  await loading.destroy();
  return { sheets, isMarked: (marks as { Marked?: boolean } | null)?.Marked === true, outline };
}

interface Titled {
  readonly title: string;
  readonly items: readonly Titled[];
}

function titlesOf(
  items: readonly Titled[] | null | undefined,
  depth: number,
): { title: string; depth: number }[] {
  return (items ?? []).flatMap(({ title, items: within }) => [
    { title: title.trim().replaceAll(/\s+/g, ' '), depth },
    ...titlesOf(within, depth + 1),
  ]);
}

function nodesOf(node: Node): Node[] {
  return [node, ...(node.children ?? []).flatMap(nodesOf)];
}
