import type { Pen } from './pen.ts';
import type { Choice } from './reading.ts';
import { onCircle, type Point } from './scene.ts';

/** Options of a nose or hub that are drawn apart. */
export const noses = ['hex', 'hexagon', 'triangle', 'twin-flat', 'collar', 'round'] as const;

/** The middle of a wheel as it is looked at: hexagon, rounded triangle, two flats, round, collar. Its size is for reading only. */
export const nose = (pen: Pen, centre: Point, radius: number, form: Choice<(typeof noses)[number]>): void => {
  const corner = (degrees: number, far = radius) => onCircle(centre, far, degrees);
  const { feature } = form;
  switch (form.form) {
    case 'hex':
    case 'hexagon':
      pen.area(
        corner(0),
        [60, 120, 180, 240, 300].map((degrees) => ({ to: corner(degrees) })),
        'metal',
        feature,
      );
      break;
    case 'triangle':
      pen.area(
        corner(-20, radius),
        [0, 1, 2].flatMap((k) => [
          { to: corner(120 * k + 20), by: corner(120 * k, radius * 1.1) },
          { to: corner(120 * k + 100), by: corner(120 * k + 60, radius * 0.45) },
        ]),
        'metal',
        feature,
      );
      break;
    case 'twin-flat':
      pen.area(
        corner(-50),
        [
          { to: corner(50) },
          { to: corner(130), radius, clockwise: true },
          { to: corner(230) },
          { to: corner(310), radius, clockwise: true },
        ],
        'metal',
        feature,
      );
      break;
    case 'collar':
      pen.circle(centre, radius, 'metal', feature);
      pen.area(
        corner(30, radius * 0.66),
        [90, 150, 210, 270, 330].map((degrees) => ({ to: corner(degrees, radius * 0.66) })),
        'metal',
        feature,
      );
      break;
    case 'round':
      pen.circle(centre, radius, 'metal', feature);
      break;
    default:
      pen.circle(centre, radius, 'guess', feature);
      pen.query(centre, feature);
  }
};
