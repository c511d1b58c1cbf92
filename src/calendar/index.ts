export * from './holidays.ts';
export * from './regions.ts';
