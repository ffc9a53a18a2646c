require('../loop/together').together('worksheet');
