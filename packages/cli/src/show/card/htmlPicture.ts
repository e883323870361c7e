import type { Picture } from './cardModel.js';

/** A picture inside the address that stands for it, so that a page needs no other file. */
export const pictureUrl = ({ png }: Picture): string =>
  `data:image/png;base64,${Buffer.from(png).toString('base64')}`;
