//! Starts on the command line, bytes in and bytes out.
