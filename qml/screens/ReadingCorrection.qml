// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// Puts a reading right that was wrong, or the figure that it was held against: what it really is, why,
// and a photo that shows it. The first one stays on record. Fills its parent.
//   shell;  openFor(ReadingLine line), openForFigure(ReadingLine line)
Item {
    id: root

    required property Shell shell
    readonly property OperationView operation: shell.operation
    readonly property bool shown: sheet.shown
    property int readingId: 0
    property string figureRow: ""
    readonly property bool ofFigure: figureRow.length > 0
    property int input: 0
    property string unit: ""
    property int decimals: 0
    property string was: ""
    property bool another: false
    property list<string> optionIds
    property list<string> optionTitles
    property string chosen: ""
    property string photoId: ""
    property bool photoAsked: false
    readonly property bool digits: input <= ReadingKinds.Record
    readonly property string value: digits ? (pad.complete ? pad.text : "") : input === ReadingKinds.Choice ? chosen : words.text.trim()

    function openFor(line: ReadingLine): void {
        root.figureRow = ""
        root.was = line.valueWords + ", " + line.byWords
        root.another = line.another
        root.show(line)
    }

    function openForFigure(line: ReadingLine): void {
        root.figureRow = line.rowId
        root.was = line.figureWords
        root.another = line.figureAnother
        root.show(line)
    }

    function show(line: ReadingLine): void {
        root.readingId = line.readingId
        root.input = line.input
        root.unit = line.unitWords
        root.decimals = line.decimals
        root.optionIds = line.optionIds
        root.optionTitles = line.optionTitles
        root.chosen = ""
        root.photoId = ""
        root.photoAsked = false
        pad.text = ""
        words.text = ""
        source.text = ""
        why.clear()
        root.operation.ask.dismiss()
        sheet.title = line.heading
        sheet.shown = true
    }

    function told(): string {
        if (!root.ofFigure)
            return root.another ? qsTr("%1. It stays on record. Safety hangs on it: somebody else than who read it corrects it.").arg(root.was)
                : qsTr("%1. It stays on record.").arg(root.was)
        const figure = qsTr("This car's figure was: %1. It stays on record, and what was read against it is read again. Somebody with the right to manage or check corrects it, and cannot sign against it.").arg(root.was)
        return root.another ? qsTr("%1 Safety hangs on it: neither who entered it nor who read against it.").arg(figure) : figure
    }

    function missing(): string {
        return root.value.length === 0 ? qsTr("what it really is")
            : root.ofFigure && source.text.trim().length === 0 ? qsTr("where it was looked up")
            : why.reason.length === 0 ? qsTr("why")
            : root.photoId.length === 0 ? qsTr("the photo") : ""
    }

    function correct(): void {
        if (root.missing().length > 0 || root.operation.ask.busy || root.shell.car.ask.busy)
            return
        if (root.ofFigure)
            root.operation.correctFigure(root.figureRow, root.value, source.text, why.reason, root.photoId)
        else
            root.operation.correctReading(root.readingId, root.value, why.reason, root.photoId)
    }

    anchors.fill: parent

    Connections {
        target: root.operation.ask

        function onDone(what: string): void {
            if (what === "correctReading" || what === "correctFigure")
                sheet.shown = false
        }
    }

    Connections {
        target: root.shell.car

        function onPhotoKept(photoId: string, warnings: list<string>): void {
            if (root.photoAsked)
                root.photoId = photoId
            root.photoAsked = false
        }
    }

    DialogSheet {
        id: sheet

        sheetWidth: Math.min(Theme.mm(270), width - 2 * Theme.margin)
        waits: root.shell.car.correctionWaits
        onDismissed: sheet.shown = false

        Column {
            width: parent.width
            spacing: Theme.module

            Label {
                width: parent.width
                text: root.told()
                wrapMode: Text.WordWrap
            }

            Banner {
                width: parent.width
                visible: root.operation.ask.refused
                kind: root.operation.ask.canRetry ? Banner.Fault : Banner.Refusal
                what: root.operation.ask.words
                action: root.operation.ask.canRetry ? qsTr("Try again") : ""
                onActed: root.operation.ask.retry()
                onClosed: root.operation.ask.dismiss()
            }

            // Of the photo.
            Banner {
                width: parent.width
                visible: root.shell.car.ask.refused
                kind: root.shell.car.ask.canRetry ? Banner.Fault : Banner.Refusal
                what: root.shell.car.ask.words
                action: root.shell.car.ask.canRetry ? qsTr("Try again") : ""
                onActed: root.shell.car.ask.retry()
                onClosed: root.shell.car.ask.dismiss()
            }

            Flow {
                width: parent.width
                visible: root.input === ReadingKinds.Choice
                spacing: Theme.gap

                Repeater {
                    model: root.input === ReadingKinds.Choice ? root.optionIds.length : 0

                    delegate: ChoiceChip {
                        required property int index

                        text: root.optionTitles.length > index ? root.optionTitles[index] : ""
                        selected: root.optionIds.length > index && root.chosen === root.optionIds[index]
                        onTapped: root.chosen = root.optionIds[index]
                    }
                }
            }

            Field {
                id: words

                width: parent.width
                visible: root.input === ReadingKinds.Text
                height: visible ? implicitHeight : 0
                label: qsTr("What it really is")
            }

            Flow {
                width: parent.width
                spacing: Theme.module

                NumberPad {
                    id: pad

                    visible: root.digits
                    unit: root.unit
                    decimals: root.decimals
                    signed: root.unit === "°C"
                    onDone: root.correct()
                }

                Column {
                    width: root.digits ? Math.max(Theme.mm(80), parent.width - pad.width - Theme.module) : parent.width
                    spacing: Theme.module

                    Field {
                        id: source

                        width: parent.width
                        visible: root.ofFigure
                        height: visible ? implicitHeight : 0
                        label: qsTr("Where it was looked up")
                    }

                    ReasonChips {
                        id: why

                        width: parent.width
                        reasons: root.ofFigure ? [qsTr("typed wrongly"), qsTr("the wrong line"), qsTr("of another car")]
                            : [qsTr("typed wrongly"), qsTr("misread"), qsTr("read at the wrong place")]
                    }

                    ActionButton {
                        paper: true
                        symbol: root.photoId.length > 0 ? Icon.Tick : Icon.Camera
                        text: root.photoId.length > 0 ? qsTr("The photo is there") : qsTr("A photo that shows it")
                        onTapped: {
                            root.photoAsked = true
                            photo.open()
                        }
                    }
                }
            }
        }

        actions: [
            ActionButton {
                paper: true
                text: qsTr("Cancel")
                onTapped: sheet.shown = false
            },
            ActionButton {
                paper: true
                kind: ActionButton.Accent
                text: qsTr("Correct it")
                visible: sheet.waits.length === 0
                available: root.missing().length === 0 && !root.operation.ask.busy && !root.shell.car.ask.busy
                reason: root.missing()
                onTapped: root.correct()
            }
        ]
    }

    // Evidence of a correction goes with the correction, not by itself.
    PhotoSheet {
        id: photo

        shell: root.shell
        prompt: qsTr("A photo that shows it")
        phoneOffered: false
        several: false
        operationId: root.operation.operationId
        whereWords: root.shell.car.stockNumber
        onFilesChosen: paths => root.shell.car.keepFile(paths[0])
        onFrameTaken: image => root.shell.car.keepFrame(image)
    }
}
