"""Asks a boat's journal for numbers, or tells what moves in it.

    python3 client.py FOLDER LINE ...   works lines out in the journal's scope
    python3 client.py FOLDER            tells what every save of its files moves

Needs Python 3 and scarph on the PATH, nothing else.
"""
import json
import subprocess
import sys


class Kernel:
    def __init__(self, folder):
        pipe = subprocess.PIPE
        self.process = subprocess.Popen(["scarph", "kernel", folder], stdin=pipe, stdout=pipe)
        self.asked = 0

    def ask(self, method, **params):
        self.asked += 1
        message = {"jsonrpc": "2.0", "id": self.asked, "method": method, "params": params}
        body = json.dumps(message).encode()
        self.process.stdin.write(b"Content-Length: %d\r\n\r\n%s" % (len(body), body))
        self.process.stdin.flush()
        while (answer := self.hear()).get("id") != self.asked:
            pass
        if "error" in answer:
            raise SystemExit(answer["error"]["message"])
        return answer.get("result")

    def hear(self):
        length = 0
        while line := self.process.stdout.readline().strip():
            name, _, value = line.partition(b":")
            length = int(value) if name.lower() == b"content-length" else length
        return json.loads(self.process.stdout.read(length))


kernel = Kernel(sys.argv[1])
if lines := sys.argv[2:]:
    for answer in kernel.ask("evaluate", text="\n".join(lines))["answers"]:
        fault = answer.get("error", {"message": "it waits for " + ", ".join(answer.get("waits", []))})
        print(answer["data"]["text/plain"] if "data" in answer else fault["message"])
else:
    kernel.ask("subscribe")
    print("subscribed", flush=True)
    while moved := kernel.hear():
        for value in moved["params"]["ripple"]["changed"]:
            before, after = ((value[side] or {}).get("text") for side in ("from", "to"))
            print(f"{value['name']}: {before} -> {after}", flush=True)
kernel.ask("shutdown")
