//! Marks of single answers.
