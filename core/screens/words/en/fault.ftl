# Where two readings of a label do not agree. Names after `fault-` are those of the core's `ReadBackFault`.
fault-left-out = { $field }: not read back.
fault-differs = { $field }: the label sheet says { $sheet }, the second reading { $second }.
fault-empty-on-sheet = { $field }: the label sheet has it empty.
