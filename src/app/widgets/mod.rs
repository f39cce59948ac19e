//! What every part of the window is made of, none of which knows a document: the look of the window,
//! words and their help, symbols, painting marks, and what is made on a thread of its own.

pub mod caution;
pub mod examples;
pub mod focus;
pub mod help;
pub mod kept;
pub mod lettering;
pub mod list;
pub mod long_list;
pub mod look;
pub mod making;
pub mod paint;
pub mod symbol;
pub mod typed_ahead;
pub mod typing;
pub mod verdict;
pub mod viewer;
pub mod words;
