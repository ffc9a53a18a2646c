import { promisesOf } from './contract';

promisesOf('climate');
