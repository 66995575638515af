/** What Node's reader of command lines refuses, as a sentence of ours: its own speak of arguments and dashes. */
export const optionFault = (error: unknown): string => {
  const { code, message } = error instanceof Error ? (error as NodeJS.ErrnoException) : { code: undefined, message: String(error) };
  const named = /'(-[^' ]*)/.exec(message)?.[1] ?? '';
  switch (code) {
    case 'ERR_PARSE_ARGS_UNKNOWN_OPTION':
      return `There is no option ${named}.`;
    case 'ERR_PARSE_ARGS_INVALID_OPTION_VALUE': {
      // With its short form beside it: '-h, --help'.
      const option = /(--[^' <]*)/.exec(message)?.[1] ?? named;
      if (message.includes('does not take')) return `${option} takes nothing after it.`;
      return message.includes('ambiguous')
        ? `${option} is followed by another option, where what it takes should stand. If that begins with a dash, write it as ${option}=-….`
        : `Nothing stands after ${option}; say what it is.`;
    }
    case 'ERR_PARSE_ARGS_UNEXPECTED_POSITIONAL':
      return `No “${/'(.*?)'/.exec(message)?.[1] ?? ''}” is taken here.`;
    default:
      return message;
  }
};
