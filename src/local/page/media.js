import { make } from './dom.js';

/** A picture that opens in full; its size, where known, keeps the page from jumping when it arrives. */
export function showPicture(media, description) {
  const size = media.width && media.height ? { width: media.width, height: media.height } : {};
  const image = make('img', { src: media.url, alt: description, ...size });
  return make('a', { href: media.url, target: '_blank', rel: 'noreferrer' }, image);
}

export function showFile(url, name, sizeBytes) {
  return make('a', { href: url, download: name }, `${name} (${Math.max(1, Math.round(sizeBytes / 1024))} kB)`);
}
