"""terminal-key.py ROUNDS COMMAND ...: how long a key takes to the screen, on a real pseudo-terminal of 80 by 24.

Types a letter and takes it back, waiting each time for the frame that shows it; prints the milliseconds, one a line.
The first line is the time from the start of the command to its first whole frame.
"""
import fcntl
import os
import pty
import select
import struct
import sys
import termios
import time

rounds, command = int(sys.argv[1]), sys.argv[2:]
master, slave = pty.openpty()
fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack('HHHH', 24, 80, 0, 0))
began = time.perf_counter()
child = os.fork()
if child == 0:
    os.close(master)
    os.setsid()
    fcntl.ioctl(slave, termios.TIOCSCTTY, 0)
    for descriptor in (0, 1, 2):
        os.dup2(slave, descriptor)
    os.close(slave)
    os.execvp(command[0], command)
os.close(slave)


def until(text):
    """Reads until this was shown; the moment at which it was."""
    shown = b''
    while text not in shown:
        if not select.select([master], [], [], 20)[0]:
            sys.exit(f'{text!r} never came:\n{shown!r}')
        shown += os.read(master, 65536)
    return time.perf_counter()


print(1000 * (until(b'> _') - began))
for turn in range(rounds):
    # So far apart that no frame of the last key is left to be drawn.
    time.sleep(0.12)
    typed = time.perf_counter()
    os.write(master, b'z' if turn % 2 == 0 else b'\x7f')
    print(1000 * (until(b'> z_' if turn % 2 == 0 else b'> _') - typed))
os.write(master, b'\x03')
try:
    while os.read(master, 65536):
        pass
except OSError:
    pass
os.waitpid(child, 0)
