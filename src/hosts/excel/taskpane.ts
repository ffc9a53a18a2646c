import './taskpane.css';
