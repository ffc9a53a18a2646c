export { writtenOrder, type DateOrder } from '../maths/records/textDates';
