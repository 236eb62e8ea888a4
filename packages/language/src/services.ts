import type { IParserErrorMessageProvider } from 'chevrotain';
import {
  createDefaultCoreModule,
  createDefaultSharedCoreModule,
  DefaultLexer,
  EmptyFileSystem,
  inject,
  type LangiumCoreServices,
  type LexerResult,
  type Module,
} from 'langium';
import { ReceiverGeneratedModule, ReceiverGeneratedSharedModule } from './generated/module.ts';

/**
 * A lexer that can be handed tokens already prepared, so that the parser reads the lines as
 * mended by read.ts instead of the raw text.
 */
class PreparedLexer extends DefaultLexer {
  prepared: LexerResult | undefined;

  override tokenize(text: string): LexerResult {
    return this.prepared ?? super.tokenize(text);
  }
}

/**
 * What is wrong with a line is said by messages.ts from its tokens; the parser's own messages are
 * never shown, and listing everything it might have expected costs more than parsing.
 */
const wordless: IParserErrorMessageProvider = {
  buildMismatchTokenMessage: () => '',
  buildNotAllInputParsedMessage: () => '',
  buildNoViableAltMessage: () => '',
  buildEarlyExitMessage: () => '',
};

const preparing: Module<
  LangiumCoreServices,
  { parser: { Lexer: PreparedLexer; ParserErrorMessageProvider: IParserErrorMessageProvider } }
> = {
  parser: {
    Lexer: (services) => new PreparedLexer(services),
    ParserErrorMessageProvider: () => wordless,
  },
};

export interface ReceiverServices {
  readonly core: LangiumCoreServices;
  readonly lexer: PreparedLexer;
}

let made: ReceiverServices | undefined;

/** The parser and lexer of the receiver language; made once, at the first use. */
export function receiverServices(): ReceiverServices {
  if (!made) {
    const shared = inject(
      createDefaultSharedCoreModule(EmptyFileSystem),
      ReceiverGeneratedSharedModule,
    );
    const core = inject(createDefaultCoreModule({ shared }), ReceiverGeneratedModule, preparing);
    shared.ServiceRegistry.register(core);
    made = { core, lexer: core.parser.Lexer as PreparedLexer };
  }
  return made;
}
