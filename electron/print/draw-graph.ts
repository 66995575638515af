import type { GraphPicture, Shape } from '../../reasoner/index.ts';
import { ink, type Paper, soft } from './paper.ts';

/** The reasons drawn in strokes and shapes alone, so that black and white loses nothing. `left` and `top` in points. */
export const drawGraph = (paper: Paper, picture: GraphPicture, left: number, top: number, scale: number): void => {
  const { doc } = paper;
  const x = (of: number): number => left + of * scale;
  const y = (of: number): number => top + of * scale;
  for (const { x1, y1, x2, y2, dashed, heavy } of picture.strokes) {
    doc.save();
    if (dashed) doc.dash(3, { space: 2 });
    doc
      .lineWidth(heavy ? 1.6 : 0.6)
      .strokeColor(heavy ? ink : soft)
      .moveTo(x(x1), y(y1))
      .lineTo(x(x2), y(y2))
      .stroke();
    doc.restore();
  }
  for (const shape of picture.shapes) drawShape(paper, shape, x, y, scale);
};

const drawShape = (paper: Paper, shape: Shape, x: (of: number) => number, y: (of: number) => number, scale: number): void => {
  const { doc } = paper;
  const { kind, width, height, heavy } = shape;
  const [left, top, right, bottom] = [x(shape.x - width / 2), y(shape.y - height / 2), x(shape.x + width / 2), y(shape.y + height / 2)];
  const cut = 5 * scale;
  doc.save();
  doc.lineWidth(heavy ? 1.6 : 0.7).strokeColor(ink);
  switch (kind) {
    case 'slot':
      doc.roundedRect(left, top, right - left, bottom - top, 4).fillAndStroke('#ececea', ink);
      break;
    case 'observation':
      doc.rect(left, top, right - left, bottom - top).fillAndStroke('#ffffff', ink);
      break;
    case 'absent':
      doc.dash(3, { space: 2 });
      doc.rect(left, top, right - left, bottom - top).fillAndStroke('#ffffff', ink);
      break;
    case 'joint':
      doc.polygon([x(shape.x), top], [right, y(shape.y)], [x(shape.x), bottom], [left, y(shape.y)]).fillAndStroke(heavy ? ink : soft, ink);
      break;
    case 'rule':
      doc
        .polygon(
          [left + cut, top],
          [right - cut, top],
          [right, top + cut],
          [right, bottom - cut],
          [right - cut, bottom],
          [left + cut, bottom],
          [left, bottom - cut],
          [left, top + cut],
        )
        .fillAndStroke('#ffffff', ink);
      break;
  }
  doc.restore();
  words(paper, shape, x, y, scale);
};

const words = (paper: Paper, shape: Shape, x: (of: number) => number, y: (of: number) => number, scale: number): void => {
  const { kind, lines, numbers } = shape;
  const size = 9.4 * scale;
  const leading = 10.6 * scale;
  const at = (line: number, of: number): number => y(shape.y) + (line - (of - 1) / 2) * leading;
  if (kind === 'joint') {
    const said = numbers === '' ? lines : [...lines.slice(0, -1), `${lines.at(-1)} (${numbers})`];
    const left = x(shape.x + shape.width / 2) + 3;
    said.forEach((line, i) => {
      paper.label(line, left, at(i, said.length), { size: 8.6 * scale, colour: soft, width: 118 * scale });
    });
    return;
  }
  if (kind === 'rule') {
    const said = [...lines, numbers].slice(0, 2);
    said.forEach((line, i) => {
      paper.label(line, x(shape.x), at(i, said.length), {
        size: 8.6 * scale,
        cut: i === 1 ? 'bold' : 'plain',
        width: (shape.width - 8) * scale,
        align: 'center',
      });
    });
    return;
  }
  // As wide as its figures are at this size, near enough; a long row of them is set smaller.
  const room = numbers === '' ? 0 : Math.min(60, 10 + numbers.length * 4.8);
  if (numbers !== '') paper.label(numbers, x(shape.x - shape.width / 2 + 5), y(shape.y), { size, cut: 'bold', width: (room - 4) * scale });
  lines.forEach((line, i) => {
    paper.label(line, x(shape.x + room / 2), at(i, lines.length), {
      size,
      cut: kind === 'slot' ? 'bold' : 'plain',
      width: (shape.width - room - 8) * scale,
      align: 'center',
    });
  });
};
