/** `3 photographs`. */
export { counted as sayMany } from '../../reasoner/plain/text.ts';
