require('../loop/together').together('engine');
