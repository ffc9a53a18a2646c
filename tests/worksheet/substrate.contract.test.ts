import { promisesOf } from './contract';

promisesOf('substrate');
