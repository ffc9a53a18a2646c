require('../loop/together').together('workbench');
