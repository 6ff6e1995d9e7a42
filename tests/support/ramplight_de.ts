<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="de">
<!-- A few words, one of each kind of place that words come from. -->
<context>
    <name>PersonChip</name>
    <message>
        <source>Who are you?</source>
        <translation>Wer sind Sie?</translation>
    </message>
</context>
<context>
    <name>ramplight</name>
    <message>
        <source>en</source>
        <extracomment>The language of this translation, as a BCP 47 tag</extracomment>
        <translation>de</translation>
    </message>
    <message>
        <source>ready for release</source>
        <translation>bereit zur Freigabe</translation>
    </message>
</context>
<context>
    <name>ramplight::paper</name>
    <message>
        <source>What was found, and what became of it</source>
        <translation>Was gefunden wurde, und was daraus geworden ist</translation>
    </message>
</context>
<context>
    <name>ramplight::TimeWords</name>
    <message>
        <source>today</source>
        <translation>heute</translation>
    </message>
</context>
</TS>
