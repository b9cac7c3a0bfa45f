export { type Analysis, createAnalysis, type FileFacts } from './analysis/analysis.ts';
