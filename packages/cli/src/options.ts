// Options that several commands have, each said once.

import { Option } from 'commander';
import { jobs, seconds, stationList } from './option-words.ts';
import { pageFormats } from './page-files.ts';

export function asOption() {
  return new Option(
    '--as <state>',
    'take the parts as they are written, or as they were found on the bench',
  )
    .choices(['written', 'found'])
    .default('written');
}

export function jobsOption() {
  return new Option(
    '--jobs <number>',
    'processes that share a collection; as many as processor cores where not given',
  ).argParser(jobs);
}

export function cacheOption() {
  return new Option(
    '--cache <folder>',
    'keep results in this folder from run to run, and do only what changed',
  );
}

export function timeLimitOption(usual: string) {
  return new Option(
    '--time-limit <seconds>',
    `of a collection: give a file up that takes longer (usually ${usual})`,
  ).argParser(seconds);
}

export function unitsOption() {
  return new Option('--units <style>', 'units as on the parts of the time, or SI units')
    .choices(['period', 'si'])
    .default('period');
}

export function stationsOption() {
  return new Option(
    '--stations <list>',
    'stations with commas between, in kilocycles where no unit is said',
  ).argParser(stationList);
}

export function themeOption() {
  return new Option('--theme <name>', 'colors of the chart; auto follows whoever looks at it')
    .choices(['auto', 'light', 'dark'])
    .default('auto');
}

export function receiverOption() {
  return new Option('--receiver <which>', 'of a file with several sets: its number or its title');
}

export function symbolsOption() {
  return new Option('--symbols <style>', 'symbols of today, or as the 1920s drew them')
    .choices(['modern', 'period'])
    .default('modern');
}

export function groundOption() {
  return new Option('--theme <name>', 'the ground it is drawn for')
    .choices(['light', 'dark', 'transparent'])
    .default('light');
}

export function pageOption() {
  return new Option(
    '-o, --output <file>',
    'where to write it, ending in .html or .md; a page to standard output where not given',
  );
}

export function pageFormatOption() {
  return new Option('--format <name>', 'by the ending of the file where not given').choices(
    pageFormats,
  );
}
