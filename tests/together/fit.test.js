require('../loop/together').together('fit');
