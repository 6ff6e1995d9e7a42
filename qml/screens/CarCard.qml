// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// A car on the wall. A fixed set of items without loaders, so that a card that is used again for
// another car only changes its words.
//   required: the roles of WallModel;  kept: something of it waits here for the server;  signal wanted(): the card was touched
Item {
    id: root

    required property string carId
    required property string stockNumber
    required property string registration
    required property string makeModel
    required property string shape
    required property string shapeColour
    required property var marks
    required property int band
    required property list<string> lineTitles
    required property list<int> lineSigns
    required property int moreCount
    required property string footWho
    required property string footWhat
    required property bool forgotten
    required property bool pastDue
    required property bool late
    required property string forecastWord
    required property string forecastLead
    required property string forecastNote
    required property bool willBeLate
    required property string placeWord
    required property string restraintWords
    required property string restraintShort
    property bool kept: false

    signal wanted

    readonly property bool isReady: band === Wall.Ready
    readonly property bool overdue: late || willBeLate
    readonly property bool strapped: restraintWords.length > 0
    readonly property bool timed: forecastLead.length + forecastWord.length + forecastNote.length > 0
    readonly property real side: Theme.band + Theme.mm(3)
    readonly property real inset: Theme.module
    readonly property int shown: (first.fits ? 1 : 0) + (second.fits ? 1 : 0) + (third.fits ? 1 : 0)
        + (fourth.fits ? 1 : 0)
    readonly property int hiddenCount: moreCount + lineTitles.length - shown

    function lineAt(at: int): string {
        return at < root.lineTitles.length ? root.lineTitles[at] : ""
    }

    function spaced(one: string, other: string): string {
        return one.length > 0 && other.length > 0 ? one + "  " + other : one + other
    }

    function safetyAt(at: int): bool {
        return at < root.lineSigns.length && root.lineSigns[at] === Wall.Safety
    }

    // Drawn once into a picture of its own: what scrolls is that picture, not fourteen texts.
    layer.enabled: true
    Accessible.role: Accessible.Button
    Accessible.name: root.stockNumber + ", " + root.makeModel + ", " + root.footWho

    // That picture has no transparency on the software backend: the wall shows in its corners.
    Rectangle {
        anchors.fill: parent
        color: Theme.ground
    }

    Rectangle {
        anchors.fill: parent
        color: area.pressed ? Theme.sunk : Theme.paper
        radius: Theme.radius
    }

    StateBand {
        anchors { left: parent.left; top: parent.top; bottom: parent.bottom }
        width: Theme.band
        visible: !root.isReady
        band: root.isReady ? StateBand.None : root.band
    }

    FoldedCorner {
        anchors { right: parent.right; bottom: parent.bottom }
        visible: root.isReady
        width: Theme.mm(16)
        height: Theme.mm(16)
    }

    StockNumber {
        id: stock

        x: root.side
        head: Theme.mm(5)
        room: root.width - x - root.inset
        number: root.stockNumber
    }

    // When it will be ready, as large as there is room for, and what was promised: below each other
    // beside the stock number, or in a line below a long one.
    Item {
        id: times

        readonly property real room: root.width - stock.x - stock.taken - root.inset - Theme.half
        readonly property bool beside: room >= Theme.mm(36)

        x: beside ? root.width - root.inset - width : root.side
        y: beside ? stock.foot - note.y - note.baselineOffset : stock.foot + Theme.half
        width: beside ? Math.min(room, Theme.mm(62)) : stock.room
        height: note.y + note.height
        visible: root.timed

        Label {
            id: lead

            width: parent.width
            visible: times.beside
            text: root.forecastLead
            role: Label.Detail
            fontSizeMode: Text.HorizontalFit
            minimumPixelSize: Theme.detailSize * 0.85
            muted: !root.overdue
            strong: root.overdue
            horizontalAlignment: Text.AlignRight
            elide: Text.ElideRight
        }

        Label {
            id: ready

            y: lead.height - Theme.line
            width: parent.width
            height: visible ? Theme.readingSize * 1.3 : 0
            visible: times.beside && root.forecastWord.length > 0
            text: root.forecastWord
            strong: root.overdue
            horizontalAlignment: Text.AlignRight
            verticalAlignment: Text.AlignVCenter
            fontSizeMode: Text.HorizontalFit
            minimumPixelSize: Theme.detailSize
        }

        Rectangle {
            anchors { right: ready.right; top: ready.bottom; topMargin: -Theme.thickLine }
            width: ready.contentWidth
            height: Theme.thickLine
            visible: root.overdue && ready.visible
            color: Theme.ink
        }

        // In a line of their own it says all three; who is late leaves its verb out.
        Label {
            id: note

            readonly property bool second: times.beside && root.forecastWord.length > 0

            y: times.beside ? ready.y + ready.height + Theme.line : 0
            width: parent.width
            text: times.beside ? root.forecastNote
                : root.spaced(root.spaced(root.overdue && !root.isReady && root.forecastWord.length > 0 ? qsTr("late:") : root.forecastLead, root.forecastWord), root.forecastNote)
            role: second ? Label.Detail : Label.Reading
            muted: second
            strong: root.overdue && !second
            horizontalAlignment: times.beside ? Text.AlignRight : Text.AlignLeft
            fontSizeMode: Text.HorizontalFit
            minimumPixelSize: Theme.detailSize
            elide: Text.ElideRight
        }
    }

    CarOutline {
        id: outline

        readonly property real room: foot.y - y - Theme.half - (root.strapped ? strap.height : 0)
        // Too small a drawing leaves its room to the words.
        readonly property bool drawn: height >= Theme.mm(20)

        x: root.side
        y: times.beside || !root.timed ? stock.foot + Theme.mm(3) : times.y + times.height + Theme.mm(1.5)
        height: Math.min(room, Theme.mm(64))
        width: height * aspect
        visible: drawn
        shape: root.shape
        marks: root.marks
    }

    Label {
        id: name

        x: root.side + (outline.drawn ? outline.width + Theme.mm(3.5) : 0)
        y: outline.y - Theme.mm(1)
        width: root.width - x - root.inset
        text: root.makeModel
        elide: Text.ElideRight
    }

    Label {
        id: about

        x: name.x
        y: name.y + name.height
        width: name.width - (more.visible && !more.isBelow ? more.width + Theme.half : 0)
        text: root.registration.length > 0 ? root.registration + " · " + root.shapeColour : root.shapeColour
        role: Label.Detail
        muted: true
        elide: Text.ElideRight
    }

    Item {
        id: lines

        x: name.x
        y: about.y + about.height + Theme.half * 0.8
        width: name.width
        height: foot.y - y - Theme.half - (root.strapped ? strap.height : 0)

        // Room that a line leaves for "+2 more" when another one follows it.
        readonly property real rest: Theme.detailSize * 1.3

        CardLine {
            id: first

            width: parent.width
            title: root.lineAt(0)
            safety: root.safetyAt(0)
            // The first of them rather than how many more there are, which then stands above.
            room: lines.height - (root.lineTitles.length + root.moreCount > 1 && lines.height - lines.rest >= oneLine - 1 ? lines.rest : 0)
        }

        CardLine {
            id: second

            y: first.taken
            width: parent.width
            title: first.fits ? root.lineAt(1) : ""
            safety: root.safetyAt(1)
            room: lines.height - y - (root.lineTitles.length + root.moreCount > 2 ? lines.rest : 0)
        }

        CardLine {
            id: third

            y: second.y + second.taken
            width: parent.width
            title: second.fits ? root.lineAt(2) : ""
            safety: root.safetyAt(2)
            room: lines.height - y - (root.lineTitles.length + root.moreCount > 3 ? lines.rest : 0)
        }

        CardLine {
            id: fourth

            y: third.y + third.taken
            width: parent.width
            title: third.fits ? root.lineAt(3) : ""
            safety: root.safetyAt(3)
            room: lines.height - y - (root.moreCount > 0 ? lines.rest : 0)
        }

        Label {
            id: more

            readonly property real below: fourth.fits ? fourth.y + fourth.taken : fourth.y
            readonly property bool isBelow: !first.fits || lines.height - below >= lines.rest * 0.75

            x: isBelow ? Theme.mm(6) : lines.width - width
            y: isBelow ? below : about.y + about.height - height - lines.y
            visible: root.hiddenCount > 0 || root.lineTitles.length === 0
            text: root.lineTitles.length === 0 ? qsTr("nothing outstanding") : qsTr("+%1 more").arg(root.hiddenCount)
            role: Label.Detail
            muted: true
        }
    }

    Strap {
        id: strap

        x: root.isReady ? 0 : Theme.band
        width: root.width - x
        y: foot.y - height
        // The largest type that goes across the card and leaves what is first to do its line.
        height: !root.strapped ? 0
            : Math.max(Theme.mm(10), Math.min(foot.y - lines.y - Theme.half - first.oneLine,
                                              root.restraintShort.length > 16 ? Theme.mm(26) : Math.min(Theme.mm(28), acrossHeight())))
        visible: root.strapped
        text: root.restraintShort
    }

    Item {
        id: foot

        x: root.side
        width: root.width - root.side - root.inset
        height: Theme.mm(1.2) + who.height + what.height + Theme.mm(2)
        y: root.height - height

        Rectangle {
            width: parent.width
            height: Theme.line
            visible: !root.strapped
            color: Theme.rule
        }

        Label {
            id: who

            y: Theme.mm(1.2)
            width: parent.width - (root.isReady ? Theme.mm(17) : 0)
            text: root.footWho
            strong: root.isReady
            elide: Text.ElideRight
        }

        Label {
            id: what

            y: who.y + who.height
            width: parent.width - place.width - Theme.half - place.anchors.rightMargin
            text: root.kept ? qsTr("kept here, not yet on the wall") : root.footWhat
            role: Label.Detail
            strong: root.kept || root.forgotten || root.pastDue
            muted: !strong
            elide: Text.ElideRight
        }

        Label {
            id: place

            anchors { right: parent.right; rightMargin: root.isReady ? Theme.mm(17) : 0; baseline: what.baseline }
            // A question is read to its end.
            width: Math.min(implicitWidth, parent.width * (root.forgotten ? 0.2 : 0.6))
            text: root.placeWord
            role: Label.Detail
            elide: Text.ElideRight
        }
    }

    MouseArea {
        id: area

        anchors.fill: parent
        onClicked: root.wanted()
    }
}
