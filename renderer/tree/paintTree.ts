import type { Drawing } from './drawing.ts';
import type { Ink, Shape } from './shapes.ts';
import { assembled, type Faces, type Palette } from './svgText.ts';

/** Canvases of browsers end at some 16,000 px a side, and long before that a machine runs out of memory. */
const mostAside = 16_000;
const mostInAll = 120_000_000;

/** The drawing as a picture: two px for each of its own, or as many as a picture can have. `scale` says how many it was. */
export async function paintTree(
  drawing: Drawing,
  palette: Palette,
  faces: Faces,
): Promise<{ readonly picture: Blob; readonly scale: number }> {
  const { width, height, fields } = assembled(drawing);
  const scale = Math.min(2, mostAside / width, mostAside / height, Math.sqrt(mostInAll / (width * height)));
  const canvas = document.createElement('canvas');
  canvas.width = Math.floor(width * scale);
  canvas.height = Math.floor(height * scale);
  const pen = canvas.getContext('2d');
  if (pen === null) throw new Error('this browser draws on no canvas');
  pen.scale(scale, scale);
  pen.fillStyle = palette('paper');
  pen.fillRect(0, 0, width, height);
  for (const { shapes, x, y } of fields) {
    pen.save();
    pen.translate(x, y);
    for (const shape of shapes) paint(pen, shape, palette, faces);
    pen.restore();
  }
  const picture = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/png'));
  if (picture === null) throw new Error('the picture is too large for this browser');
  return { picture, scale };
}

function paint(pen: CanvasRenderingContext2D, shape: Shape, palette: Palette, faces: Faces): void {
  pen.globalAlpha = shape.opacity ?? 1;
  switch (shape.kind) {
    case 'rect': {
      const path = new Path2D();
      path.roundRect(shape.x, shape.y, shape.width, shape.height, shape.round ?? 0);
      fillAndStroke(pen, path, shape, palette);
      return;
    }
    case 'path':
      fillAndStroke(pen, new Path2D(shape.d), shape, palette);
      return;
    case 'dot': {
      const path = new Path2D();
      path.arc(shape.x, shape.y, shape.r, 0, 2 * Math.PI);
      fillAndStroke(pen, path, shape, palette);
      return;
    }
    case 'text': {
      pen.save();
      pen.translate(shape.x, shape.y);
      if (shape.upright) pen.rotate(-Math.PI / 2);
      pen.font = `${shape.weight} ${shape.size}px ${shape.face === 'title' ? faces.title : faces.text}`;
      pen.textAlign = shape.anchor === 'middle' ? 'center' : shape.anchor === 'end' ? 'right' : 'left';
      if (shape.halo !== undefined) {
        pen.lineWidth = 3;
        pen.lineJoin = 'round';
        pen.strokeStyle = palette(shape.halo);
        pen.strokeText(shape.text, 0, 0);
      }
      pen.fillStyle = palette(shape.fill);
      pen.fillText(shape.text, 0, 0);
      pen.restore();
    }
  }
}

function fillAndStroke(
  pen: CanvasRenderingContext2D,
  path: Path2D,
  look: { readonly fill?: Ink; readonly stroke?: Ink; readonly strokeWidth?: number; readonly dash?: string },
  palette: Palette,
): void {
  if (look.fill !== undefined) {
    pen.fillStyle = palette(look.fill);
    pen.fill(path);
  }
  if (look.stroke === undefined) return;
  pen.strokeStyle = palette(look.stroke);
  pen.lineWidth = look.strokeWidth ?? 1;
  pen.setLineDash(look.dash === undefined ? [] : look.dash.split(' ').map(Number));
  pen.stroke(path);
  pen.setLineDash([]);
}
