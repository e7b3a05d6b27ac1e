/** Name of the file in the folder of a workspace that states levels for all below it. */
export const WORKSPACE_FILE = 'rigwright.json';
