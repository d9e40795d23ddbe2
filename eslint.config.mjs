import next from '@next/eslint-plugin-next'
import hooks from 'eslint-plugin-react-hooks'
import ts from 'typescript-eslint'

export default ts.config(
  {
    ignores: [
      '.next/**',
      'lib/server/generated/**',
      'next-env.d.ts',
      'public/**',
      'reports/**',
      'coverage/**',
      '.data*/**',
    ],
  },
  { linterOptions: { reportUnusedDisableDirectives: 'error' } },
  {
    files: ['**/*.{ts,tsx}'],
    extends: [ts.configs.recommendedTypeChecked],
    languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname } },
    rules: {
      '@typescript-eslint/no-floating-promises': 'error',
      '@typescript-eslint/switch-exhaustiveness-check': [
        'error',
        { considerDefaultExhaustiveForUnions: true },
      ],
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_' }],
      // React runs an async event handler; what it must not get is a promise as a condition.
      '@typescript-eslint/no-misused-promises': ['error', { checksVoidReturn: { attributes: false } }],
      // A template may show a number; anything else must be turned into text on purpose.
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
      // The signature of a route handler, an action or an interface is given by who calls it.
      '@typescript-eslint/require-await': 'off',
    },
  },
  {
    files: ['app/**/*.{ts,tsx}'],
    plugins: { '@next/next': next, 'react-hooks': hooks },
    rules: { ...next.configs['core-web-vitals'].rules, ...hooks.configs.recommended.rules },
  },
  {
    // The answer of JSON.parse and of a page under test has no type; a test checks it instead.
    files: ['tests/**/*.{ts,tsx}'],
    rules: {
      '@typescript-eslint/no-unsafe-assignment': 'off',
      '@typescript-eslint/no-unsafe-member-access': 'off',
      '@typescript-eslint/no-unsafe-argument': 'off',
      '@typescript-eslint/no-unsafe-call': 'off',
      '@typescript-eslint/no-unsafe-return': 'off',
    },
  },
  {
    files: ['**/*.mjs'],
    extends: [ts.configs.base],
    rules: { 'no-undef': 'off', 'no-unused-vars': 'error', 'no-unreachable': 'error' },
  },
)
