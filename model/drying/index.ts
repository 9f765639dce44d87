export { boxReading } from './box.ts'
export type { Climate, ClimateGap, ClimateSample, ConstantClimate } from './climate.ts'
export { forecastReady } from './forecast/forecast.ts'
export { type BayLesson, type PooledPrior, poolLessons } from './forecast/pool.ts'
export type { ForecastInput, FutureClimate } from './forecast/question.ts'
export type { MoistureReading } from './forecast/readings.ts'
export type { NewScreedDrying, ReadyForecast } from './forecast-shape.ts'
export { forecastInputOfStory, type InputFromStory, type StoryQuestion } from './from-story/forecast-input.ts'
export { forecastOfStory } from './from-story/forecast-of-story.ts'
export { lessonOfStory } from './from-story/lesson.ts'
export { limitOfStory } from './from-story/limit.ts'
export { mixOfStory } from './from-story/mix.ts'
export { newScreedDrying } from './from-story/new-screed.ts'
export type { HeatingStep } from './heat.ts'
export {
  type Constant,
  type ConstantName,
  type FastDryingInput,
  type Material,
  materials,
  modelCodeShape,
  withConstants,
} from './materials.ts'
export { daysByRule } from './rule-of-thumb.ts'
export {
  type DryingInput,
  type DryingResult,
  type DryingState,
  type Profile,
  simulateDrying,
} from './simulate.ts'
