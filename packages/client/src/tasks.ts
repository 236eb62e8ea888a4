import {
  type Disposable,
  tasks as editorTasks,
  ProcessExecution,
  Task,
  type TaskDefinition,
  TaskGroup,
  TaskScope,
  workspace,
} from 'vscode';

interface CheckDefinition extends TaskDefinition {
  readonly files?: readonly string[];
  readonly thorough?: boolean;
}

/** The command line tool as the user has it; a workspace has no say in what is run. */
const tool = (): string =>
  workspace.getConfiguration('setwright').get<string>('commandLine') || 'setwright';

function checkTask(definition: CheckDefinition, scope: Task['scope'] = TaskScope.Workspace): Task {
  const { files = ['**/*.receiver'], thorough = false } = definition;
  const words = ['check', ...(thorough ? ['--thorough'] : []), ...files];
  const task = new Task(
    definition,
    scope,
    thorough ? 'check all sets, thoroughly' : 'check all sets',
    'setwright',
    new ProcessExecution(tool(), words),
    '$setwright',
  );
  task.group = TaskGroup.Build;
  task.detail = `${tool()} ${words.join(' ')}`;
  return task;
}

/** Offers the command line tool's check of all sets as tasks. */
export const tasks = (): Disposable =>
  editorTasks.registerTaskProvider('setwright', {
    provideTasks: () => [
      checkTask({ type: 'setwright', command: 'check' }),
      checkTask({ type: 'setwright', command: 'check', thorough: true }),
    ],
    resolveTask: ({ definition, scope }) => checkTask(definition as CheckDefinition, scope),
  });
