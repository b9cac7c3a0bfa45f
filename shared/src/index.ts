export * from './library.generated.ts';
export * from './messages.ts';
