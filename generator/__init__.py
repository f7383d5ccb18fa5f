"""shedbook. Its matrices are small: one thread solves them twice as fast as several do."""

import os

for _threads in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ.setdefault(_threads, "1")  # before numpy is loaded
