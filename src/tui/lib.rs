//! Strandline's screen: state, update, view and the runtime that feeds them.
