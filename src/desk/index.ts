export { businessOf, type Desk, todayOf } from './desk.ts';
