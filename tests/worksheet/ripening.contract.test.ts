import { promisesOf } from './contract';

promisesOf('ripening');
