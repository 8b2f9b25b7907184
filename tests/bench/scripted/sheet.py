"""What a person would script instead: a plan that is there already (JSON), Jinja2, and an HTML-to-PDF library.

usage: sheet.py PLAN.json OUT.html|OUT.pdf
It draws nothing, plans nothing and checks nothing; it only lays the numbers out, a setup a page.
"""
import json
import sys

from jinja2 import Environment

PAGE = """<!DOCTYPE html><html><head><meta charset="utf-8"><title>{{ p.part }}</title><style>
@page { size: letter; margin: 20mm } body { font: 12pt sans-serif } h1 { font-size: 30pt } section { page-break-after: always }
td, th { border: 1px solid #000; padding: 2mm } b { font-size: 16pt } table { border-collapse: collapse; width: 100% }
</style></head><body>
<section><h1>{{ p.part }}</h1><ul>{% for s in p.setups %}<li>Setup {{ s.number }}: {{ s.holding }}</li>{% endfor %}</ul>
<ul>{% for f in p.findings %}<li>{{ f.severity }}: {{ f.message }}</li>{% endfor %}</ul></section>
{% for s in p.setups %}<section><h1>Setup {{ s.number }}</h1><p>{{ s.holding }}, datum end at the {{ s.datum_end }}; {{ s.zero }}</p>
<table><tr><th></th><th>no.</th><th>do</th><th>to</th><th>limits</th><th>rpm</th><th>lengths</th></tr>
{% for o in s.operations %}<tr><td>&#9744;</td><td>{{ o.number }}</td><td>{{ o.verb }} {{ o.feature }}</td><td><b>{{ o.to_diameter }}</b></td>
<td>{% if o.limits %}{{ o.limits.min }} to {{ o.limits.max }}{% endif %}</td><td>{{ o.rpm }}</td>
<td>{% for q in o.positions %}{{ q.what }} {{ q.from_datum }} / {{ q.carriage }}<br>{% endfor %}</td></tr>
{% for w in o.why %}<tr><td></td><td colspan="6">{{ w.reason }} ({{ w.source }})</td></tr>{% endfor %}{% endfor %}</table></section>{% endfor %}
</body></html>"""

plan, out = sys.argv[1:3]
with open(plan, encoding="utf-8") as file:
    html = Environment(autoescape=True).from_string(PAGE).render(p=json.load(file))
if out.endswith(".pdf"):
    from weasyprint import HTML

    HTML(string=html).write_pdf(out)
else:
    with open(out, "w", encoding="utf-8") as file:
        file.write(html)
