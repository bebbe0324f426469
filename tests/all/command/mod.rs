//! The command line as a grower uses it: words in; text, errors and an exit status out.

mod charts;
#[cfg(unix)]
mod completing;
mod form;
#[cfg(unix)]
mod help;
mod need;
mod order;
mod order_files;
mod outputs;
mod place;
mod row;
mod settled;
mod terminal;
mod typed;
mod variety;
mod work;
