import {
  type CancellationToken,
  ErrorCodes,
  LSPErrorCodes,
  ResponseError,
} from 'vscode-languageserver-protocol';

/** How far the conversation with the client has come. */
export interface Conversation {
  state: 'before' | 'open' | 'shut';
}

/** Says that a request cannot be answered, and why. */
export function refusal(why: string, code: number = LSPErrorCodes.RequestFailed): never {
  throw new ResponseError(code, why);
}

/** Says that a document is not open, so that nothing can be told of it. */
export function notOpen(uri: string): never {
  return refusal(`The document ${uri} is not open.`, ErrorCodes.InvalidParams);
}

/** Stops where the client no longer wants an answer. */
export function unlessCancelled(token: CancellationToken): void {
  if (token.isCancellationRequested)
    refusal('The request was cancelled.', LSPErrorCodes.RequestCancelled);
}

/** Wraps the answer to a request: none before the conversation is opened or after it is shut. */
export function answering<P, R>(
  conversation: Conversation,
  answer: (params: P, token: CancellationToken) => R | Promise<R>,
): (params: P, token: CancellationToken) => Promise<R> {
  return async (params, token) => {
    if (conversation.state === 'before')
      refusal('The server has not been initialized.', ErrorCodes.ServerNotInitialized);
    if (conversation.state === 'shut')
      refusal('The server has been shut down.', ErrorCodes.InvalidRequest);
    unlessCancelled(token);
    const result = await answer(params, token);
    unlessCancelled(token);
    return result;
  };
}
