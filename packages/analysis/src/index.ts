export * from './direct-current.ts';
