import { promisesOf } from './contract';

promisesOf('harvest');
