#!/usr/bin/env bash
#SBATCH --job-name=splitcase
#SBATCH --array=1-16
#SBATCH --cpus-per-task=2
#SBATCH --mem=2G
# One share of the jobs to each task of a Slurm array, on a file system that all nodes see.
#
# usage: sbatch slurm.sh JOBS OUT
# A task that was killed is given again: sbatch --array=7 slurm.sh JOBS OUT; what it wrote stays.
set -eu
jobs=$1 out=$2
splitcase render "$jobs" --out "$out" --workers "$SLURM_CPUS_PER_TASK" --quiet \
    --shard "$SLURM_ARRAY_TASK_ID/$SLURM_ARRAY_TASK_COUNT"
