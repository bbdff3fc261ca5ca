//! Strandline's map: model, file format, generator, import, and dots for a view.
