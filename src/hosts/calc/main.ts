import { writeExtension } from './build';

void writeExtension();
