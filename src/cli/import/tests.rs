//! Files of other tools taken as routes, and routes that went out and come back.
