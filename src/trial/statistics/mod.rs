//! The statistics that a trial row needs, each with its source: vase life, shares, nested blooms
//! and small families.
