require('../loop/together').together('excel');
