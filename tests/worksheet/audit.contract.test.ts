import { promisesOf } from './contract';

promisesOf('audit');
