import { describe, expect, it } from 'vitest';
import { heardByClient, heardByPreview, isPage, keptFrom } from '../src/messages.ts';
import { choice, page, pageWith, subject, uri } from './support/fixture.ts';

describe('what the preview hears', () => {
  it('takes every message of the client', () => {
    for (const message of [
      subject(),
      page(),
      { kind: 'failed', uri, message: 'why' },
      { kind: 'lit', uri, parts: ['R1'] },
      { kind: 'points', id: 1, svg: '<svg/>', to: 'file' },
    ])
      expect(heardByPreview(message)).toBe(message);
  });

  it('drops whatever is none', () => {
    for (const wrong of [
      undefined,
      'page',
      {},
      { kind: 'run', code: 'x' },
      { ...subject(), choice: { ...choice, page: 'secrets' } },
      { kind: 'page', page: { ...pageWith(), parts: { R1: { range: 3 } } } },
      { ...subject(), heard: -1 },
      { kind: 'page', page: pageWith() },
      { kind: 'lit', uri, parts: [1] },
      { kind: 'points', id: -1, svg: '', to: 'file' },
    ])
      expect(heardByPreview(wrong)).toBeUndefined();
  });
});

describe('what the client hears', () => {
  it('takes every message of the preview', () => {
    for (const message of [
      { kind: 'ready' },
      { kind: 'choose', choice, id: 1 },
      { kind: 'pin', pinned: true },
      { kind: 'reveal', uri, part: 'R1', stay: false },
      { kind: 'export', format: 'png' },
      { kind: 'points', id: 1, png: 'aGk=', trouble: undefined },
      { kind: 'trouble', message: 'why' },
    ])
      expect(heardByClient(message)).toBe(message);
  });

  it('drops whatever is none', () => {
    for (const wrong of [
      null,
      [],
      { kind: 'reveal', uri, part: 3, stay: false },
      { kind: 'export', format: 'exe' },
      { kind: 'choose', choice: { ...choice, receiver: 0.5 }, id: 1 },
      { kind: 'choose', choice },
      { kind: 'points', id: 1, png: 7 },
    ])
      expect(heardByClient(wrong)).toBeUndefined();
  });
});

describe('a page of the server', () => {
  it('is one with a picture, without, and after a journey as JSON', () => {
    expect(isPage(pageWith())).toBe(true);
    expect(isPage(JSON.parse(JSON.stringify(pageWith({ svg: undefined }))))).toBe(true);
  });

  it('is none with a finding of no severity, or a table of numbers', () => {
    const part = { ...pageWith().parts.R1, findings: [{ severity: 'bad', message: '' }] };
    expect(isPage({ ...pageWith(), parts: { R1: part } })).toBe(false);
    expect(isPage({ ...pageWith(), tables: [{ title: '', heading: [], rows: [[1]] }] })).toBe(
      false,
    );
  });
});

describe('what is kept over a reload', () => {
  const kept = {
    uri,
    title: 'cove.receiver',
    choice,
    pinned: false,
    cameras: { 'diagram 0': { middle: { x: 1, y: 2 }, scale: 1, fitted: false } },
    list: true,
    step: 2,
    runs: false,
  };

  it('is taken as it is when it is sound', () => {
    expect(keptFrom(kept)).toEqual(kept);
  });

  it('loses what makes no sense, and no more', () => {
    const dials = { middle: { x: 'far', y: 0 }, scale: 0, fitted: 1 };
    const cameras = { ...kept.cameras, dials };
    expect(keptFrom({ ...kept, cameras, step: -1 })).toEqual({ ...kept, step: 0 });
    expect(keptFrom({ ...kept, choice: undefined })).toBeUndefined();
    expect(keptFrom('kept')).toBeUndefined();
  });
});
