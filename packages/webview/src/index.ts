export * from './html.ts';
export * from './messages.ts';
export * from './protocol.ts';
