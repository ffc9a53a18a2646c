import { promisesOf } from './contract';

promisesOf('loading');
