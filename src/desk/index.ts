export * from './animals.ts';
export * from './changes.ts';
export { businessOf, type Desk, todayOf } from './desk.ts';
export { findLine, findTub, tubsInUse } from './find.ts';
export * from './setup.ts';
export * from './stock.ts';
export * from './tubs.ts';
export * from './undo.ts';
export * from './water.ts';
