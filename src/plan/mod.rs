//! From geometry and shop to a plan: operations, setups, their order.

pub mod order;
