//! What practice says at each size.
