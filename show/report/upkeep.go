package report
