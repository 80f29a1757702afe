"""pseudo-terminal.py COLUMNS ROWS COMMAND ...: runs a command on a terminal of its own.

Bytes on standard input are typed there; what the command writes comes out on standard output. The first line on
standard error is the process id of the command. File descriptor 3 stays open for as long as the command lives, and
for no longer. When this process is killed, the terminal is gone.
"""
import fcntl
import os
import pty
import select
import struct
import sys
import termios

columns, rows, command = int(sys.argv[1]), int(sys.argv[2]), sys.argv[3:]
alive = 3

# The size is set before the command starts: it reads it once, at once.
master, slave = pty.openpty()
fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack('HHHH', rows, columns, 0, 0))
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
os.close(alive)
sys.stderr.write(f'{child}\n')
sys.stderr.flush()

typing = True
while True:
    ready, _, _ = select.select([master, 0] if typing else [master], [], [])
    if master in ready:
        try:
            shown = os.read(master, 65536)
        except OSError:
            break
        if not shown:
            break
        os.write(1, shown)
    if 0 in ready:
        typed = os.read(0, 65536)
        if typed:
            os.write(master, typed)
        else:
            typing = False
_, status = os.waitpid(child, 0)
sys.exit(os.waitstatus_to_exitcode(status) & 0xff)
