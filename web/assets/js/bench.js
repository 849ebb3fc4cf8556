// What every page does beyond showing itself.
