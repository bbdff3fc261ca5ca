//! Routes go out in each form and come back.
