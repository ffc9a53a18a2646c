import { promisesOf } from './contract';

promisesOf('lineage');
