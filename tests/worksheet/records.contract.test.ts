import { promisesOf } from './contract';

promisesOf('records');
