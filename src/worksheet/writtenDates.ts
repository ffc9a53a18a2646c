export { monthOf, writtenOrder, type DateOrder } from '../maths/records/textDates';
