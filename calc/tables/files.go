package tables

import _ "embed"

// The files are part of the program, each as a text: all of them as a file system would take
// the code of file systems and of their times into the browser build.
var (
	//go:embed data/wood.csv
	woodCSV string
	//go:embed data/screws.csv
	screwsCSV string
	//go:embed data/planking.csv
	plankingCSV string
	//go:embed data/machine_screws.csv
	machineScrewsCSV string
	//go:embed data/nails.csv
	nailsCSV string
	//go:embed data/gauges.csv
	gaugesCSV string
	//go:embed data/lumber.csv
	lumberCSV string
	//go:embed data/plywood.csv
	plywoodCSV string
	//go:embed data/water.csv
	waterCSV string
	//go:embed data/emc.csv
	emcCSV string
	//go:embed data/capacity.csv
	capacityCSV string
	//go:embed data/shop.csv
	shopCSV string
	//go:embed data/aliases.csv
	aliasesCSV string
	//go:embed data/sources.csv
	sourcesCSV string
)
