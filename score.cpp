#include "engine/scoring/replay.h"
#include "engine/scenario/scenario_reader.h"
#include <algorithm>
#include <cstdio>
#include <ctime>
#include <fstream>
#include <sstream>
#include <vector>
#include <cstdlib>
static double now(){timespec n{};clock_gettime(CLOCK_THREAD_CPUTIME_ID,&n);return double(n.tv_sec)*1e3+1e-6*double(n.tv_nsec);}
