#include <string>  // a folder that is not a room
