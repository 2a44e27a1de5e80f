//! Checks of the whole program against figures and programs from outside the project. Each test names its source.
