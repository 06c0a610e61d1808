module scarph

go 1.26
