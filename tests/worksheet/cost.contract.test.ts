import { promisesOf } from './contract';

promisesOf('cost');
