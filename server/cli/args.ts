import { Command, CommanderError, InvalidArgumentError, Option } from 'commander';
import { MARKETS, type MarketName, marketNamed } from '../../language/catalogue/markets.ts';
import manifest from '../../package.json' with { type: 'json' };
import { type CheckOptions, CLEAN, check, FORMATS, type LoadsCommandOptions, loads, UNUSABLE } from './commands.ts';
import { type EnvelopeCommandOptions, envelope } from './envelope-command.ts';
import { type ExplainOptions, explain } from './explain.ts';
import { SEVERITIES } from './findings.ts';
import { SCHEMA_TEXT } from './json.ts';
import { type LabelCommandOptions, label } from './label-command.ts';
import { type LimitsCommandOptions, limits } from './limits-command.ts';
import { type StabilityCommandOptions, stability } from './stability-command.ts';
import { COLOR_CHOICES, lineWidth, type Terminal } from './terminal.ts';
import { type WeighCommandOptions, weigh } from './weigh-command.ts';
import { type WindowCommandOptions, window } from './window-command.ts';

const NAMED = 'files, folders or patterns such as "fleet/**/*.rig"; the current folder when none is given';

const EXIT_CODES = `
Exit codes:
  0  no errors (there may be warnings)
  1  errors found
  2  wrong usage, or a file that cannot be read`;

const PROGRAM_HELP = `${EXIT_CODES}

Examples:
  rigwright check                     check all .rig files of the current folder and below
  rigwright check fleet/weekend.rig   check one file and those it uses
  rigwright loads fleet --units US    load tables of all rigs of a folder, in pounds
  rigwright label fleet --market US   drafts of the figures that plates and labels need
  rigwright stability fleet           whether the rigs will sway, and what should move
  rigwright limits fleet              what was held against which limit, by which text
  rigwright weigh fleet               weighbridge slips against the computed loads
  rigwright envelope fleet            least and most of every load between the named cases
  rigwright window fleet/weekend.rig --of fresh,waste
                                      the levels of two tanks with which all limits hold
  rigwright explain RW603             what a code stands for
  rigwright check --help              more about one command`;

const CHECK_HELP = `${EXIT_CODES}

Examples:
  rigwright check                              all .rig files of the current folder and below
  rigwright check "fleet/**/*.rig" items.rig   a pattern and a file
  rigwright check --level error                errors only, for a hook that guards commits
  rigwright check --format json > report.json  for other programs; "rigwright schema" describes it
  rigwright check --quiet && echo clean        the exit code alone`;

const LOADS_HELP = `${EXIT_CODES}

Examples:
  rigwright loads fleet/weekend.rig                  all rigs and cases of a file
  rigwright loads --rig Weekend --case homebound     one case of one rig
  rigwright loads --units US fleet                   in pounds
  rigwright loads --format json fleet > loads.json   SI numbers by their stable names
  rigwright loads fleet --with-diagnostics           the tables, then what "rigwright check" prints`;

const LABEL_HELP = `${EXIT_CODES}

Examples:
  rigwright label fleet/weekend.rig                  each unit for each market that rigs name
  rigwright label --unit TourerB --market US         one unit for one market
  rigwright label --market EU --market UK fleet      for two markets, whatever the rigs name
  rigwright label --format json fleet > labels.json  SI numbers with sources; see "rigwright schema"`;

const STABILITY_HELP = `${EXIT_CODES}

Examples:
  rigwright stability fleet/weekend.rig              damping over speed and grade, what to move
  rigwright stability --rig Weekend --speed 110km/h  at another speed than intended
  rigwright stability fleet --plot plots             also draws damping-RIG.svg and response-RIG.svg
  rigwright stability --case homebound --units US    one case, in mph and pounds
  rigwright stability --format json fleet > sway.json  SI numbers; see "rigwright schema"`;

const LIMITS_HELP = `${EXIT_CODES}

Examples:
  rigwright limits fleet/weekend.rig                 every limit, and what could not be checked
  rigwright limits --rig Weekend --units US          one rig, in pounds
  rigwright limits --format json fleet > limits.json SI numbers; see "rigwright schema"
  rigwright explain RW801                            what a code stands for`;

const WEIGH_HELP = `${EXIT_CODES}

Examples:
  rigwright weigh fleet/weekend.rig                  readings beside predictions; tares
  rigwright weigh --rig Weekend --units US           one rig, in pounds
  rigwright weigh "fleet/**/*.rig"                   all that a pattern finds
  rigwright weigh --format json fleet > slips.json   SI numbers; see "rigwright schema"`;

const ENVELOPE_HELP = `${EXIT_CODES}

Examples:
  rigwright envelope fleet/weekend.rig               everything reachable, with its states
  rigwright envelope --rig Weekend --case homebound  one case of one rig, with its tolerances
  rigwright envelope --units US fleet                in pounds
  rigwright envelope --format json fleet > out.json  SI numbers; see "rigwright schema"`;

const WINDOW_HELP = `${EXIT_CODES}

Examples:
  rigwright window fleet/weekend.rig --of fresh,waste
                                           levels that hold all limits, whatever else is on board
  rigwright window fleet --rig Weekend --of Tourer.fresh,awning --case homebound
                                           with the rest as in one case; items go by their pieces
  rigwright window fleet --rig Weekend --of fresh,waste --svg window.svg
                                           also drawn, to be printed
  rigwright window fleet --rig Weekend --of fresh,waste --practice --nominal
                                           common practice too; without tolerances
  rigwright window fleet --rig Weekend --of fresh,waste --format json > window.json`;

/** Reads the arguments (without the names of Node and the script), runs the command and gives the exit code. */
export async function run(args: readonly string[], terminal: Terminal): Promise<number> {
  let code = CLEAN;
  const program = makeProgram(terminal, (result) => {
    code = result;
  });
  try {
    await program.parseAsync([...args], { from: 'user' });
    return code;
  } catch (error) {
    if (!(error instanceof CommanderError)) throw error;
    return error.exitCode === 0 ? CLEAN : UNUSABLE; // help and version were asked for, or the usage is wrong
  }
}

function makeProgram(terminal: Terminal, finish: (code: number) => void): Command {
  const program = new Command('rigwright')
    .description(
      'Checks .rig files and computes the axle loads, coupling load, margins and lateral stability of tow vehicles ' +
        'and trailers.',
    )
    .version(manifest.version, '--version', 'print the version')
    .helpOption('-h, --help', 'print this help')
    .helpCommand(false)
    .configureHelp({ showGlobalOptions: false })
    .configureOutput({
      writeOut: (text) => terminal.out.write(text),
      writeErr: (text) => terminal.error.write(text),
      getOutHelpWidth: () => lineWidth(terminal.out),
      getErrHelpWidth: () => lineWidth(terminal.error),
      getOutHasColors: () => false,
      getErrHasColors: () => false,
      outputError: (text, write) => write(text.replace(/^error: /, 'rigwright: ')),
    })
    .exitOverride()
    .addHelpText('after', PROGRAM_HELP);

  subcommand(program, 'check', 'report what is wrong in the files', CHECK_HELP)
    .option('--quiet', 'print no diagnostics: the exit code says whether there are errors')
    .action(async (named: readonly string[], options: CheckOptions) => finish(await check(named, options, terminal)));

  subcommand(program, 'loads', 'print the load tables of all rigs, case by case', LOADS_HELP)
    .option('--rig <name>', 'only this rig, or this vehicle or trailer alone; may be given again', collect)
    .option('--case <name>', 'only this case; may be given again', collect)
    .addOption(unitsOption())
    .option('--with-diagnostics', 'print the diagnostics of the files below the tables')
    .action(async (named: readonly string[], options: LoadsCommandOptions) =>
      finish(await loads(named, options, terminal)),
    );

  subcommand(program, 'label', 'print drafts of the figures that plates and labels of units need', LABEL_HELP)
    .option('--unit <name>', 'only this vehicle or trailer; may be given again', collect)
    .option(
      '--market <name>',
      `for this market (${MARKETS.map(({ name }) => name).join(', ')}), whatever the rigs name; may be given again`,
      collectMarket,
    )
    .action(async (named: readonly string[], options: LabelCommandOptions) =>
      finish(await label(named, options, terminal)),
    );

  subcommand(program, 'stability', 'print the lateral stability of all rigs, case by case', STABILITY_HELP)
    .option('--rig <name>', 'only this rig; may be given again', collect)
    .option('--case <name>', 'only this case; may be given again', collect)
    .option('--speed <speed>', 'look at this speed, such as 100km/h or 62mph, instead of the intended one')
    .addOption(unitsOption())
    .option('--plot <folder>', 'also draw damping over speed and response over time into this folder, as SVG')
    .option('--force', 'let plots replace files that are there')
    .action(async (named: readonly string[], options: StabilityCommandOptions) =>
      finish(await stability(named, options, terminal)),
    );

  subcommand(program, 'limits', 'print what was held against which limit, by which text', LIMITS_HELP)
    .option('--rig <name>', 'only this rig, or this vehicle or trailer alone; may be given again', collect)
    .addOption(unitsOption())
    .action(async (named: readonly string[], options: LimitsCommandOptions) =>
      finish(await limits(named, options, terminal)),
    );

  subcommand(program, 'weigh', 'reconcile weighbridge slips with the computed loads', WEIGH_HELP)
    .option('--rig <name>', 'only this rig, or this vehicle or trailer alone; may be given again', collect)
    .addOption(unitsOption())
    .action(async (named: readonly string[], options: WeighCommandOptions) =>
      finish(await weigh(named, options, terminal)),
    );
  subcommand(program, 'envelope', 'print least and most of every load, share and margin, and tolerances', ENVELOPE_HELP)
    .option('--rig <name>', 'only this rig, or this vehicle or trailer alone; may be given again', collect)
    .option('--case <name>', 'only this case, without everything else reachable; may be given again', collect)
    .addOption(unitsOption())
    .action(async (named: readonly string[], options: EnvelopeCommandOptions) =>
      finish(await envelope(named, options, terminal)),
    );
  subcommand(program, 'window', 'print the levels of two tanks or items with which all limits hold', WINDOW_HELP)
    .requiredOption('--of <names>', 'the two tanks or items, with a comma between them')
    .option('--rig <name>', 'this rig, or this vehicle or trailer alone; needed where there are several')
    .option('--case <name>', 'the rest as in this case, instead of whatever can be on board')
    .option('--practice', 'hold common practice and recommendations too')
    .option('--nominal', 'leave stated tolerances aside, instead of taking them at their worst')
    .addOption(unitsOption())
    .option('--svg <file>', 'also draw the window into this file, as SVG')
    .option('--force', 'let the drawing replace a file that is there')
    .action(async (named: readonly string[], options: WindowCommandOptions) =>
      finish(await window(named, options, terminal)),
    );

  program
    .command('explain')
    .description('print what a code of a diagnostic stands for, with an example and how to mend it')
    .argument('<code>', 'such as RW603; the name of a diagnostic, such as coupling-share-high, does too')
    .addOption(colorOption())
    .showHelpAfterError('"rigwright explain --help" says how it is used.')
    .action((code: string, options: ExplainOptions) => finish(explain(code, options, terminal)));

  program
    .command('schema')
    .description('print the JSON Schema of the output of --format json')
    .action(() => terminal.out.write(SCHEMA_TEXT));
  return program;
}

/** A command with what check and loads have in common. */
function subcommand(program: Command, name: string, description: string, help: string): Command {
  return program
    .command(name)
    .description(description)
    .argument('[files...]', NAMED)
    .addOption(new Option('--format <format>', 'form of the output').choices(FORMATS).default('text'))
    .addOption(colorOption())
    .addOption(
      new Option('--level <severity>', 'least severity of the diagnostics reported')
        .choices(SEVERITIES)
        .default('information'),
    )
    .option(
      '--expect-errors <files>',
      'exit with 0 when exactly these files (file, folder or pattern) have errors; may be given again',
      collect,
    )
    .showHelpAfterError(`"rigwright ${name} --help" says how it is used.`)
    .addHelpText('after', help);
}

function colorOption(): Option {
  return new Option('--color <when>', 'colours; auto: on a terminal, unless NO_COLOR is set')
    .choices(COLOR_CHOICES)
    .default('auto');
}

/** What is left away where the units of each rig will do: those of its market, else those that it is written in. */
function unitsOption(): Option {
  return new Option(
    '--units <system>',
    'units of tables and plots; without, those of the market of each rig, else those it is written in',
  ).choices(['metric', 'US']);
}

/** Gathers the values of an option that may be given more than once. */
function collect(value: string, before: readonly string[] = []): readonly string[] {
  return [...before, value];
}

function collectMarket(value: string, before: readonly MarketName[] = []): readonly MarketName[] {
  const market = marketNamed(value);
  if (market !== undefined) return [...before, market.name];
  throw new InvalidArgumentError(`It is one of ${MARKETS.map(({ name }) => name).join(', ')}.`);
}
