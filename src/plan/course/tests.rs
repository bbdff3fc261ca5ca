//! Courses on the practice chart, and what they cost.
