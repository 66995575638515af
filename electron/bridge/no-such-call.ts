import { refusal } from './reply.ts';

export const noSuchCall = refusal('no-such-call', null, 'The window asked for something this program does not do. Restart Kinplate.');
