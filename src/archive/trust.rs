//! Who vouches for a seal: signatures of OpenSSH keys and time stamps of authorities.
//!
//! Both can be left out of a build (features `signature` and `timestamp`); the program then says so.

pub mod rfc3161;
pub mod ssh;
