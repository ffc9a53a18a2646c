require('../loop/together').together('headless');
