//! What `trug tag` takes.

use std::path::PathBuf;

/// What `trug tag` takes.
#[derive(Debug, clap::Args)]
pub struct TagArguments {
    /// Seedlings by number and varieties by name; without any, every seedling that you keep.
    #[arg(value_name = "PLANT")]
    pub(super) ids: Vec<String>,
    /// Writes this file: .pdf or .svg to print, .csv for a label printer's own program, .txt;
    /// without it the words are shown here.
    #[arg(long, value_name = "FILE")]
    pub(super) out: Option<PathBuf>,
    /// What to print: sale (for a buyer), stake (a number to read standing) or tuber (for the store).
    #[arg(long, value_name = "KIND", default_value = "sale")]
    pub(super) kind: String,
    /// The sheet or roll of labels that you print on; without it the kind's usual one.
    #[arg(long, value_name = "SHEET")]
    pub(super) sheet: Option<String>,
    /// What one costs, such as 4.50, or none; such as '24-001=6' for one plant alone. Without it as your
    /// settings have it.
    #[arg(long, value_name = "PRICE")]
    pub(super) price: Vec<String>,
    /// How many of each, such as 12; such as '24-001=5' of one plant alone; or stock, as many as your stock
    /// book has free to sell, at the price that it asks.
    #[arg(long, value_name = "COPIES")]
    pub(super) copies: Vec<String>,
    /// Numbers the copies of each plant: 3 of 12.
    #[arg(long)]
    pub(super) numbered: bool,
    /// Begins at this label of the first sheet, counted row by row: those before it are used up.
    #[arg(long, value_name = "LABEL", default_value_t = 1)]
    pub(super) from: usize,
    /// Draws blooms in their own colours; without it black on white.
    #[arg(long)]
    pub(super) coloured: bool,
    /// Writes a page that shows whether your sheet of labels is straight; print it first.
    #[arg(long, requires = "out")]
    pub(super) test_page: bool,
    /// Moves all that is printed right and down by so many mm, as the test page shows: -1,0.5.
    #[arg(
        long,
        value_name = "RIGHT,DOWN",
        default_value = "0,0",
        allow_hyphen_values = true
    )]
    pub(super) offset: String,
    /// Writes the kinds of tags and sheets of labels as a file to edit: keep it as tags.ron in your
    /// folder.
    #[arg(long, value_name = "FILE.ron", conflicts_with_all = ["ids", "out", "sheet"])]
    pub(super) stock: Option<PathBuf>,
}
