//! Strandline's document: the route, the one way to change it, its history and the readings taken from it.
