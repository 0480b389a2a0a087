"""The output room: takes a Drawing, gives files. It decides nothing about what is seen."""
