//! Strandline's command line.
