//! Strandline's one door to the disk: charts and routes read, written whole or not at all, and locked.
