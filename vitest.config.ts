import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    testTimeout: 600_000,
    hookTimeout: 600_000,
    onConsoleLog: () => {
      throw new Error('a test must not print to the console');
    },
  },
});
