export * from '../../../test/support/drafts.ts';
