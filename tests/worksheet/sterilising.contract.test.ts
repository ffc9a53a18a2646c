import { promisesOf } from './contract';

promisesOf('sterilising');
