import './workbench.css';
