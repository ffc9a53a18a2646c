require('../loop/together').together('maths');
