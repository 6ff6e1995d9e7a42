// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// Takes one reading after the other: the pad, the options or the words that each asks for. After
// one is taken the next empty one comes by itself.
//   operation, rows (Repeater of ReadingLine);  startAt(int index), or the first empty one with -1
//   signals completed(): the last empty one of those that startAt(-1) began with was taken;
//   correctionWanted(ReadingLine line): it stands, and was wrong;  figureWrong(ReadingLine line): so is
//   the figure that it was held against
TellingSheet {
    id: root

    required property OperationView operation
    required property Repeater rows
    property int at: -1
    property ReadingLine line: null
    property bool inTurn: false
    readonly property bool stands: line !== null && line.standsWords.length > 0
    // A wrong figure that nobody read against is typed over.
    property bool retyping: false
    readonly property bool asksFigure: line !== null && !stands && (line.figureMissing || retyping)
    readonly property bool digits: line !== null && line.input <= ReadingKinds.Record && !stands

    low: true
    ask: operation.ask
    title: line !== null ? line.heading : ""
    sheetWidth: Math.min(Theme.mm(190), width - 2 * Theme.margin)
    onDismissed: root.stop()

    signal completed
    signal correctionWanted(ReadingLine line)
    signal figureWrong(ReadingLine line)

    function startAt(index: int): void {
        root.inTurn = index < 0
        root.show(index >= 0 ? index : root.nextEmpty(0))
    }

    function lineAt(index: int): ReadingLine {
        return root.rows.itemAt(index) as ReadingLine
    }

    function nextEmpty(from: int): int {
        for (let index = from; index < root.rows.count; ++index) {
            const line = root.lineAt(index)
            if (line !== null && !line.hasValue && !line.optional)
                return index
        }
        return -1
    }

    function show(index: int): void {
        if (index < 0 || index >= root.rows.count) {
            root.stop()
            return
        }
        root.at = index
        root.line = root.lineAt(index)
        root.retyping = false
        pad.text = ""
        figurePad.text = ""
        source.text = ""
        words.text = ""
        root.shown = true
        if (root.asksFigure)
            figurePad.forceActiveFocus()
        else if (root.digits)
            pad.forceActiveFocus()
        else if (root.line.input === ReadingKinds.Text && !root.stands)
            words.edit()
        else
            options.forceActiveFocus() // the keyboard of the words before goes
    }

    function stop(): void {
        root.shown = false
        root.at = -1
        root.line = null
        root.retyping = false
    }

    function told(): string {
        if (root.line === null)
            return ""
        if (root.retyping)
            return qsTr("It was: %1. Somebody with the right to manage or check enters it, and cannot sign against it.").arg(root.line.figureWords)
        if (root.asksFigure)
            return qsTr("This car's figure is not entered. It comes from: %1. Who enters it cannot sign against it.").arg(root.line.figureFrom)
        // A figure that is set to stands below, with the way to put it right.
        return root.line.input === ReadingKinds.Figure && root.line.figureWords.length > 0 ? "" : root.line.limitWords
    }

    function putFigureRight(): void {
        const line = root.line
        if (line.figureInUse) {
            root.stop()
            root.figureWrong(line)
            return
        }
        root.operation.ask.dismiss()
        root.retyping = true
        source.text = line.figureSource
        figurePad.forceActiveFocus()
    }

    function take(text: string): void {
        if (root.line !== null)
            root.operation.takeReading(root.line.rowId, text)
    }

    // From the pad or from the keyboard, whichever is done last.
    function enterFigure(): void {
        figurePad.forceActiveFocus()
        if (root.line !== null && figurePad.complete)
            root.operation.setFigure(root.line.rowId, figurePad.text, source.text)
    }

    Connections {
        target: root.operation.ask

        function onDone(what: string): void {
            if (!root.shown)
                return
            if (what === "takeReading") {
                const next = root.nextEmpty(root.at + 1)
                root.show(next)
                if (next < 0 && root.inTurn)
                    root.completed()
            } else if (what === "setFigure") {
                root.show(root.at)
            }
        }
    }

    Column {
        width: parent.width
        spacing: Theme.module

        // Read already: what to do instead of typing over it.
        Label {
            width: parent.width
            visible: root.stands
            text: root.line !== null ? root.line.valueWords + ", " + root.line.byWords : ""
            muted: true
            wrapMode: Text.WordWrap
        }

        Label {
            width: parent.width
            visible: root.stands
            text: root.line !== null ? root.line.standsWords : ""
            wrapMode: Text.WordWrap
        }

        Label {
            width: parent.width
            visible: text.length > 0
            text: root.told()
            wrapMode: Text.WordWrap
            muted: true
        }

        Row {
            width: parent.width
            visible: root.line !== null && root.line.figureWords.length > 0 && !root.asksFigure
            spacing: Theme.module

            Label {
                width: parent.width - (wrong.visible ? wrong.width + parent.spacing : 0)
                anchors.verticalCenter: parent.verticalCenter
                text: root.line !== null ? qsTr("This car's figure: %1").arg(root.line.figureWords) : ""
                wrapMode: Text.WordWrap
            }

            ActionButton {
                id: wrong

                paper: true
                visible: root.line !== null && root.line.figureOpen
                text: qsTr("The figure is wrong")
                onTapped: root.putFigureRight()
            }
        }

        // Several tools of the kind are in date: with which of them? Asked once for each person.
        Column {
            width: parent.width
            visible: root.line !== null && !root.asksFigure && !root.stands && root.line.toolIds.length > 0
            spacing: Theme.half

            Label {
                text: root.line !== null ? qsTr("Measured with %1").arg(root.line.toolKind) : ""
                role: Label.Detail
                muted: true
            }

            Flow {
                width: parent.width
                spacing: Theme.gap

                Repeater {
                    model: root.line !== null ? root.line.toolIds.length : 0

                    delegate: ChoiceChip {
                        required property int index

                        text: root.line !== null && root.line.toolNumbers.length > index ? root.line.toolNumbers[index] : ""
                        selected: root.line !== null && root.line.toolId === root.line.toolIds[index]
                        onTapped: root.operation.chooseTool(root.line.rowId, root.line.toolIds[index])
                    }
                }
            }
        }

        NumberPad {
            id: pad

            anchors.horizontalCenter: parent.horizontalCenter
            visible: root.digits && !root.asksFigure
            height: visible ? implicitHeight : 0
            unit: root.line !== null ? root.line.unitWords : ""
            decimals: root.line !== null ? root.line.decimals : 0
            signed: root.line !== null && root.line.unitWords === "°C"
            onDone: text => root.take(text)
        }

        Row {
            visible: root.asksFigure
            height: visible ? figurePad.implicitHeight : 0
            spacing: Theme.module

            NumberPad {
                id: figurePad

                unit: root.line !== null ? root.line.unitWords : ""
                decimals: root.line !== null ? root.line.decimals : 0
                doneText: qsTr("Enter")
                onDone: root.enterFigure()
            }

            Field {
                id: source

                width: Theme.mm(70)
                label: qsTr("Where it was looked up")
                onAccepted: root.enterFigure()
            }
        }

        Flow {
            id: options

            width: parent.width
            visible: root.line !== null && root.line.input === ReadingKinds.Choice && !root.stands
            spacing: Theme.gap

            Repeater {
                model: root.line !== null && root.line.input === ReadingKinds.Choice ? root.line.optionIds.length : 0

                delegate: ChoiceChip {
                    required property int index

                    text: root.line !== null && root.line.optionTitles.length > index ? root.line.optionTitles[index] : ""
                    note: root.line !== null && root.line.optionWords.length > index ? root.line.optionWords[index] : ""
                    selected: root.line !== null && root.line.hasValue && root.line.valueText === root.line.optionIds[index]
                    onTapped: root.take(root.line.optionIds[index])
                }
            }
        }

        Field {
            id: words

            width: parent.width
            visible: root.line !== null && root.line.input === ReadingKinds.Text && !root.stands
            height: visible ? implicitHeight : 0
            onAccepted: root.take(words.text)
        }

        Row {
            anchors.right: parent.right
            spacing: Theme.gap

            ActionButton {
                paper: true
                text: qsTr("Close")
                onTapped: root.stop()
            }

            ActionButton {
                paper: true
                visible: root.stands
                text: qsTr("It was misread")
                onTapped: {
                    const line = root.line
                    root.stop()
                    root.correctionWanted(line)
                }
            }

            ActionButton {
                paper: true
                kind: ActionButton.Accent
                visible: root.line !== null && root.line.input === ReadingKinds.Text && !root.stands
                text: qsTr("Next")
                available: words.text.trim().length > 0
                onTapped: root.take(words.text)
            }
        }
    }
}
