//! The numbers for the hands, against hand-worked and published ones. `tests/independent/kinds.csv` lists each kind of number with its test and its source, or says that it is common
//! practice and no source prints it.

mod again;
mod bar;
mod careful;
mod for_the_hands;
mod hand;
mod hand_worked;
mod judged;
mod minutes;
mod odd_rounds;
mod other_end;
mod other_unit;
mod planned;
mod properties;
mod published;
mod published_hands;
mod published_minutes;
mod published_more;
mod published_shapes;
mod published_threads;
mod recipes;
mod small_numbers;
mod written;
mod zeros;
